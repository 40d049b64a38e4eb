import { type Corners, type FindMarkers, type FoundMarker, type GreyPicture, markerDictionary } from "#grading";
import { invalid } from "#units";
import { type ArucoDetector, type OpenCv, type OpenCvBox, whenReady } from "./opencv.ts";

export interface MarkerFinder {
  readonly findMarkers: FindMarkers;
  /** gives its memory back; it finds nothing afterwards */
  close(): void;
}

/**
 * A finder of the markers that the frame sheets carry, or of another dictionary of the library where one is named.
 * The same code runs in Node and in a module worker of a browser; library: see `OpenCvBox`.
 * Source: Garrido-Jurado et al., Pattern Recognition 47 (2014) 2280, as OpenCV 4.12 has it, without its own refinement of
 * corners, which works on codes and not on light.
 * @throws InvalidInput for a dictionary that the library does not have
 */
export async function openMarkerFinder(
  library: OpenCvBox,
  dictionary: string = markerDictionary.name,
): Promise<MarkerFinder> {
  const { cv } = await whenReady(library);
  const name = cv[dictionary as "DICT_4X4_250"];
  if (!dictionary.startsWith("DICT_") || typeof name !== "number") {
    invalid("marker dictionary", dictionary, "", "must be one of the library's");
  }
  const parts = [
    cv.getPredefinedDictionary(name),
    new cv.aruco_DetectorParameters(),
    new cv.aruco_RefineParameters(10, 3, true),
  ] as const;
  const detector = new cv.aruco_ArucoDetector(...parts);
  return {
    findMarkers(picture) {
      if (picture.data.length !== picture.width * picture.height || picture.data.length === 0) {
        invalid("grey picture", picture.data.length, "B", `must have ${picture.width} × ${picture.height} pixels`);
      }
      return detect(cv, detector, picture);
    },
    close() {
      for (const part of [detector, ...parts]) part.delete();
    },
  };
}

function detect(cv: OpenCv, detector: ArucoDetector, picture: GreyPicture): readonly FoundMarker[] {
  const mat = new cv.Mat(picture.height, picture.width, cv.CV_8UC1);
  const corners = new cv.MatVector();
  const ids = new cv.Mat();
  const rejected = new cv.MatVector();
  try {
    mat.data.set(picture.data);
    detector.detectMarkers(mat, corners, ids, rejected);
    return Array.from({ length: ids.rows }, (_, k) => {
      const one = corners.get(k);
      const at = Array.from(one.data32F);
      one.delete();
      // The library counts from the middle of the first pixel, this product from the edge of the picture.
      const point = (i: number) => ({ u: at[2 * i]! + 0.5, v: at[2 * i + 1]! + 0.5 });
      return { id: ids.data32S[k]!, corners: [point(0), point(1), point(2), point(3)] satisfies Corners };
    });
  } finally {
    for (const part of [mat, corners, ids, rejected]) part.delete();
  }
}
