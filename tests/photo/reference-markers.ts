import { createRequire } from "node:module";
import { markerDictionary } from "#grading";

// biome-ignore lint/suspicious/noExplicitAny: the part is loaded whole and has no small type of its own
const cv: any = createRequire(import.meta.url)("@techstark/opencv-js");

/** Waits until the reference detector is there; it must not be handed on by a promise. */
export async function detectorReady(): Promise<void> {
  if (cv.Mat !== undefined) return;
  await new Promise<void>((resolve) => {
    cv.onRuntimeInitialized = () => resolve();
  });
}

/** Ids and corners (px from the middle of the first pixel, clockwise from the upper left) that the detector finds. */
export function detectMarkers(grey: Uint8Array, width: number, height: number): Map<number, number[]> {
  const picture = cv.matFromArray(height, width, cv.CV_8UC1, grey);
  const [corners, ids] = [new cv.MatVector(), new cv.Mat()];
  const dictionary = cv.getPredefinedDictionary(cv[markerDictionary.name]);
  const [parameters, refine] = [new cv.aruco_DetectorParameters(), new cv.aruco_RefineParameters(10, 3, true)];
  const detector = new cv.aruco_ArucoDetector(dictionary, parameters, refine);
  detector.detectMarkers(picture, corners, ids);
  const found = new Map<number, number[]>();
  for (let k = 0; k < ids.rows; k++) {
    const four = corners.get(k);
    found.set(ids.intAt(k, 0), [...four.data32F]);
    four.delete();
  }
  for (const part of [picture, corners, ids, dictionary, parameters, refine, detector]) part.delete();
  return found;
}
