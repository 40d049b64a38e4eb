import { entry, type Source } from "./source.ts";

/** Thermal, mechanical and chemical properties of metals and layers. Entries of the library are cited from here. */
export const materialSources: readonly Source[] = [
  entry("crc-handbook", "handbook", "CRC Handbook of Chemistry and Physics, CRC Press"),
  entry(
    "touloukian-1970",
    "handbook",
    "Touloukian Y.S. et al., Thermophysical Properties of Matter, vols. 1, 4 and 12, IFI/Plenum, 1970-1975",
  ),
  entry(
    "mills-2002",
    "handbook",
    "Mills K.C., Recommended Values of Thermophysical Properties for Selected Commercial Alloys, Woodhead, 2002",
  ),
  entry(
    "asm-handbook-1",
    "handbook",
    "ASM Handbook, vol. 1, Properties and Selection: Irons, Steels, and High-Performance Alloys, ASM International",
  ),
  entry(
    "asm-handbook-2",
    "handbook",
    "ASM Handbook, vol. 2, Properties and Selection: Nonferrous Alloys and Special-Purpose Materials, ASM International",
  ),
  entry("incropera", "handbook", "Incropera F.P. et al., Fundamentals of Heat and Mass Transfer, Wiley"),
  entry(
    "en-1993-1-2",
    "standard",
    "EN 1993-1-2, Eurocode 3: Design of steel structures: structural fire design (steel properties against temperature)",
  ),
  entry(
    "en-1999-1-2",
    "standard",
    "EN 1999-1-2, Eurocode 9: Design of aluminium structures: structural fire design (aluminium properties against temperature)",
  ),
];
