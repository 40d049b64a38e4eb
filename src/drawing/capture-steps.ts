import type { FrameLayout } from "#grading";

/**
 * How to photograph a coupon on its frame sheet, one sentence or two for each step. Written from what was measured to
 * matter: glare, shadow, light that falls off, pictures that a phone has altered.
 */
export function captureSteps(frame: FrameLayout): readonly string[] {
  return [
    "Print at 100 % on matt white paper and measure the ruler. Use this sheet for the coupon it names and no other.",
    "Stick the sheet on something flat. For a coupon thicker than 0.5 mm cut out the window and raise the sheet on " +
      "card until it is level with the coupon's face. The coupon lies in the middle of the window; nothing covers a marker or a grey step.",
    "Take it where the light is even: outdoors in open shade, or between two lamps at 45° to the left and right. " +
      "No flash, no sun on the plate, and your own shadow off it.",
    "Use the main lens of the phone without zoom, straight from above as far as you can. The frame fills 80 to 90 % of the picture, all markers in it.",
    "Switch off HDR, filters, scene and portrait modes. Focus and lock the exposure on a grey step of middle lightness.",
    "Take four photographs. After each turn sheet and coupon together by a quarter of a turn, and leave camera and lamps where " +
      "they are: a gleam that moves over the plate is found by comparing them.",
    "For line spacings below 0.45 mm also take close-ups, 200 mm wide or less, with three markers or more in each.",
    "Send the files as the camera wrote them; messengers shrink them.",
    frame.greysMeasured
      ? "The grey steps of this sheet have been measured."
      : "The grey steps of this sheet have not been measured: lightness then holds between patches of one photograph only.",
  ];
}
