import { requireInteger } from "#units";

/** How many markers the dictionary holds, cells along a marker without and with its black border. */
export const markerDictionary = { name: "DICT_4X4_250", size: 250, bits: 4, cells: 6 } as const;

/**
 * Cells of the predefined dictionary of 4 x 4 cells (first 250), four hexadecimal digits a marker: rows from the top, left
 * cell first, 1 is white. Any two differ in at least three cells in any turn. Source: Garrido-Jurado S. et al.,
 * Pattern Recognit. 47 (2014) 2280, for the kind of code; the codes are those that OpenCV 4.12 carries (Apache-2.0), read
 * from its `getPredefinedDictionary(DICT_4X4_250)`.
 */
const packed =
  "b5320f9a332d9946549e79cd9e2ec4f2fedacf56f99111a70eb72a0f24b1263e466566006c5e76af" +
  "868bb02bccd5dd82fe479471ace4a5542123346f441557b29ecff0cb08ae0929187504ff0df61c5a" +
  "17182a28328c38b224e82eeb2d3f4b64502e5013519455685d415f9768016867612461e96b126fe5" +
  "67df7e1b80a083448ba2937a846c852a859c9c899fa1bb7cbc04b65bbfc8b7abca1fc962d958d3d5" +
  "cc98c7a0c537e95df925fbbbee2af74d35758aad76170acf064b2dc149d843f44f364fd369e470c7" +
  "7a6eb4eaed4ffce7fea6002500430a880a86026f001c009708370a3109c60b0109fb0b581082182d" +
  "10781073127412b11af913060c0e0cf104330c9f0ef20efd074c0fa4072f05b50f9107db1ee41439" +
  "1d8015c81f8b15ba1db1208028e922a228532af022f72940214629b92b9c2bb238ca382e300738e7" +
  "3a493a65325d3b88391d3bd3264727802faa2d1425de25532f7734483ca83c41340d34fb369a3de0" +
  "356a3d093ded3fc43f6c37ce3d5c3d7637b03f173fff48e542684a2d4160495141dd4bdf584f5a48" +
  "5816505d5afa5ab551235b8a591951354c6946c14e0b445f4e594d834d7d47d847735c855e44562b" +
  "5cbb55c35f6e5feb5d12555e6270621561c26b2063456b5c6b5b780c7acf787f798071e5717479b6" +
  "71d37b33646a66a86ea76e9165226dcb678d6d31";

/**
 * The printed cells of a marker with its black border, rows from the top: true is black.
 * id 0 to 249; six by six. Throws InvalidInput outside. Source: see `packed`.
 */
export function markerCells(id: number): readonly (readonly boolean[])[] {
  requireInteger("marker id", id, 0, markerDictionary.size - 1);
  const word = Number.parseInt(packed.slice(4 * id, 4 * id + 4), 16);
  const { bits, cells } = markerDictionary;
  return Array.from({ length: cells }, (_, row) =>
    Array.from({ length: cells }, (_, column) => {
      if (row === 0 || column === 0 || row > bits || column > bits) return true;
      return ((word >> (bits * bits - 1 - (row - 1) * bits - (column - 1))) & 1) === 0;
    }),
  );
}
