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
  entry(
    "memory-metals",
    "memory",
    "Common engineering handbook values for metals and alloys, written down from memory",
    "to be confirmed against a handbook; spreads cover the usual differences between handbooks and grades",
  ),
  entry(
    "memory-coatings",
    "memory",
    "Usual values for paints and polymer coatings, written down from memory",
    "formulations differ widely; spreads are meant to cover them",
  ),
  entry(
    "memory-char",
    "memory",
    "Optics of char and its burn-off in air (140-180 kJ/mol; half gone near 790-910 K at 10 K/min), written down from memory",
    "soot and chars of polymers differ widely; mineral filler stays when the carbon has burnt",
  ),
  entry("memory-oxides", "memory", "Usual values for rust, scale, anodic and tint oxides, written down from memory"),
  entry("memory-contaminants", "memory", "Usual values for oil films and rubber residue, written down from memory"),
  entry(
    "memory-setups",
    "memory",
    "Usual data of generic laser set-ups and indicative price ranges, written down from memory",
    "no product is meant; replace by the data of the machine at hand",
  ),
  entry(
    "memory-fume",
    "memory",
    "Decomposition products usually named for coatings and contaminants, written down from memory",
    "substances are flagged; a concentration is never predicted",
  ),
  entry(
    "interface-prior",
    "own",
    "Own prior for the gasification of the interface of a layer within 100 ns",
    "chosen with published removal thresholds in sight; coupons narrow it",
  ),
  entry(
    "machine-spread",
    "practice",
    "Spread of spot diameter and delivered power between machines, common practice, no source",
  ),
  entry(
    "mixture-practice",
    "practice",
    "Kinds of layer met where the kind is unknown, with their shares, common practice, no source",
  ),
  entry("osha-1910-1028", "directive", "Occupational Safety and Health Administration, 29 CFR 1910.1028, Benzene"),
  entry("osha-1910-1048", "directive", "Occupational Safety and Health Administration, 29 CFR 1910.1048, Formaldehyde"),
];
