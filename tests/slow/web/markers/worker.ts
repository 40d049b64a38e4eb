// @ts-expect-error: the published types have no default export, the library has nothing else
import cv from "@techstark/opencv-js/dist/opencv.js";
import { type FrameLayout, locateFrame, type Photo } from "#grading";
import { openMarkerFinder } from "#markers";

/** A module worker as the pages would have it: the library by a plain import, handed over in its box. */
self.onmessage = async ({ data }: MessageEvent<{ readonly photo: Photo; readonly layout: FrameLayout }>) => {
  const { findMarkers } = await openMarkerFinder({ cv });
  const { view, gates } = locateFrame(data.photo, data.layout, findMarkers);
  self.postMessage({ gates, residual: view?.residual, corners: view?.markers.map(({ corners }) => corners) });
};
