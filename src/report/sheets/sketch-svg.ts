import { escapeXml, type Theme } from "#drawing";
import { fromSI, requirePositive } from "#units";
import type { CouponSketch, SketchPatch } from "./model.ts";

const mm = (value: number): number => Number(fromSI(value, "mm").toFixed(3));
const figure = (value: number): string => String(Number(value.toFixed(3)));

/**
 * A small drawing of a coupon, one unit a millimetre of the plate: numbers as large as the patches allow, so that they
 * can be read when it is printed at half size. `name` must differ between drawings of one page.
 */
export function sketchSvg(coupon: CouponSketch, name: string, theme: Theme): string {
  const id = name.replace(/[^A-Za-z0-9_-]+/g, "-");
  const width = mm(requirePositive("coupon width", coupon.width, "m"));
  const height = mm(requirePositive("coupon height", coupon.height, "m"));
  const marks = coupon.patches.map((patch) => mark(patch, height, theme)).join("");
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="-0.5 -0.5 ${width + 1} ${height + 1}" role="img" ` +
    `aria-labelledby="${id}-title ${id}-desc" font-family="DejaVu Sans, Verdana, sans-serif">` +
    `<title id="${id}-title">${escapeXml(coupon.label)}</title><desc id="${id}-desc">${escapeXml(coupon.description)}</desc>` +
    `<rect x="0" y="0" width="${width}" height="${height}" fill="${theme.panel}" stroke="${theme.ink}" stroke-width="0.4"/>` +
    `<path d="M0 ${figure(height - 3)}V${height}H3Z" fill="${theme.ink}"/>${marks}</svg>`
  );
}

function mark(patch: SketchPatch, plate: number, theme: Theme): string {
  const [x, width, height] = [mm(patch.x), mm(patch.width), mm(patch.height)];
  const y = plate - mm(patch.y) - height;
  const big = Math.min(height * 0.42, width * 0.36);
  // words are longer than numbers and have to stay inside the patch
  const small = Math.min(height * 0.3, (width * 1.5) / Math.max(4, patch.under.length));
  const centre = figure(x + width / 2);
  const label = (atY: number, size: number, words: string, colour: string, weight: string): string =>
    `<text x="${centre}" y="${figure(atY)}" font-size="${figure(size)}" font-weight="${weight}" text-anchor="middle" fill="${colour}">${escapeXml(words)}</text>`;
  return (
    `<rect x="${figure(x)}" y="${figure(y)}" width="${width}" height="${height}" fill="${theme.paper}" stroke="${theme.ink}" stroke-width="0.25"${patch.reference ? ' stroke-dasharray="1.2 0.8"' : ""}/>` +
    label(y + height * 0.48, big, String(patch.patch), theme.ink, "bold") +
    label(y + height * 0.86, small, patch.under, theme.muted, "normal")
  );
}
