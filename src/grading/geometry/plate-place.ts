import type { PlatePoint } from "./found-marker.ts";
import type { PlateMap } from "./pose.ts";

/** How the coupon lies in its frame: turned and scaled about a place, then moved. */
export interface PlatePlace {
  /** m that the coupon lies to the right and upwards of where it is drawn */
  readonly x: number;
  readonly y: number;
  /** rad, to the left */
  readonly turn: number;
  /** apparent size over planned size; a thick plate stands nearer to the camera than its frame */
  readonly scale: number;
  /** m, what it is turned and scaled about */
  readonly about: PlatePoint;
}

/** The place of a coupon that lies as the frame sheet shows it, turned about its middle. m. */
export const asDrawn = (coupon: { readonly width: number; readonly height: number }): PlatePlace => ({
  x: 0,
  y: 0,
  turn: 0,
  scale: 1,
  about: { x: coupon.width / 2, y: coupon.height / 2 },
});

/** The place on the frame where a place of the coupon lies, m. */
export function onFrame(place: PlatePlace, x: number, y: number): PlatePoint {
  const rx = x - place.about.x;
  const ry = y - place.about.y;
  const c = place.scale * Math.cos(place.turn);
  const s = place.scale * Math.sin(place.turn);
  return { x: place.about.x + place.x + c * rx - s * ry, y: place.about.y + place.y + s * rx + c * ry };
}

/** From the coupon as it lies in its frame to the picture and back, on top of the map of the frame. */
export function mapOfPlate(frame: PlateMap, place: PlatePlace): PlateMap {
  const { about, scale } = place;
  const c = Math.cos(place.turn);
  const s = Math.sin(place.turn);
  return {
    toPixel(x, y) {
      const rx = scale * (x - about.x);
      const ry = scale * (y - about.y);
      return frame.toPixel(about.x + place.x + c * rx - s * ry, about.y + place.y + s * rx + c * ry);
    },
    toPlate(u, v) {
      const at = frame.toPlate(u, v);
      const rx = (at.x - about.x - place.x) / scale;
      const ry = (at.y - about.y - place.y) / scale;
      return { x: about.x + c * rx + s * ry, y: about.y - s * rx + c * ry };
    },
  };
}
