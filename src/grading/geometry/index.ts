export type { PlateRectangle } from "./coarse-plate.ts";
export { type CutOptions, cutPatch } from "./cut-patch.ts";
export { fitPlate, type PlateFit } from "./fit-plate.ts";
export type { Corners, FindMarkers, FoundMarker, GreyPicture, PixelPoint, PlatePoint } from "./found-marker.ts";
export { frameLimits } from "./frame-gates.ts";
export { estimateHomography, type Homography } from "./homography.ts";
export { type FrameLook, type FrameView, locateFrame } from "./locate-frame.ts";
export type { PlatePlace } from "./plate-place.ts";
export { fitPose, type PlateMap, type Pose, type PosePair } from "./pose.ts";
