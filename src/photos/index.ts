/** Files of photographs to upright pictures. Originals are never altered; they are known by the sha256 of their bytes. */
export { type DecodedPhoto, decodePhoto } from "./decode-photo.ts";
export type { PhotoKind } from "./file-kind.ts";
export { markerLibrary } from "./marker-library.ts";
export { photoLimits } from "./size-limit.ts";
export { encodeJpeg, mediaTypes } from "./encode-jpeg.ts";
