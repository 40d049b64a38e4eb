/** What is used of OpenCV compiled to WebAssembly; its own published types speak of the page and lack the detector. */
interface Deletable {
  delete(): void;
}

export interface Mat extends Deletable {
  readonly rows: number;
  readonly data: Uint8Array;
  readonly data32S: Int32Array;
  readonly data32F: Float32Array;
}

export interface MatVector extends Deletable {
  get(index: number): Mat;
}

export interface ArucoDetector extends Deletable {
  detectMarkers(picture: Mat, corners: MatVector, ids: Mat, rejected: MatVector): void;
}

export interface OpenCv {
  readonly Mat: { new (): Mat; new (rows: number, columns: number, type: number): Mat };
  readonly MatVector: new () => MatVector;
  readonly CV_8UC1: number;
  readonly getPredefinedDictionary: (name: number) => Deletable;
  readonly aruco_DetectorParameters: new () => Deletable;
  readonly aruco_RefineParameters: new (distance: number, errorRate: number, allOrders: boolean) => Deletable;
  readonly aruco_ArucoDetector: new (dictionary: Deletable, parameters: Deletable, refine: Deletable) => ArucoDetector;
  readonly [dictionary: `DICT_${string}`]: number;
  onRuntimeInitialized?: () => void;
}

/**
 * The library in a box. It carries a `then` of its own: a promise that resolves to it, also one of `import()` where a
 * bundler spreads it over the module's names, never comes to rest. Node loads it by `require`, a page by a plain
 * `import` at the head of its worker; both hand it over in this box.
 */
export interface OpenCvBox {
  readonly cv: unknown;
}

/** Waits until its WebAssembly is ready; in the box again. */
export function whenReady(box: OpenCvBox): Promise<{ readonly cv: OpenCv }> {
  const cv = box.cv as OpenCv;
  return new Promise((resolve) => {
    if (typeof cv.Mat === "function") return resolve({ cv });
    const before = cv.onRuntimeInitialized;
    cv.onRuntimeInitialized = () => {
      before?.();
      resolve({ cv });
    };
  });
}
