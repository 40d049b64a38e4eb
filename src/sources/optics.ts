import { entry, type Source } from "./source.ts";

/** Beams, optical constants of metals and oxides, light in scattering layers. */
export const opticsSources: readonly Source[] = [
  entry(
    "iso-11146-1",
    "standard",
    "ISO 11146-1, Lasers and laser-related equipment: test methods for laser beam widths, divergence angles and beam propagation ratios",
  ),
  entry(
    "kubelka-munk-1931",
    "paper",
    "Kubelka P., Munk F., Ein Beitrag zur Optik der Farbanstriche, Z. tech. Phys. 12 (1931) 593",
  ),
  entry(
    "kubelka-1948",
    "paper",
    "Kubelka P., New contributions to the optics of intensely light-scattering materials. Part I, J. Opt. Soc. Am. 38 (1948) 448",
  ),
  entry(
    "saunderson-1942",
    "paper",
    "Saunderson J.L., Calculation of the color of pigmented plastics, J. Opt. Soc. Am. 32 (1942) 727",
  ),
  entry(
    "born-wolf-1999",
    "handbook",
    "Born M., Wolf E., Principles of Optics, 7th ed., Cambridge University Press, 1999",
  ),
  entry(
    "johnson-christy-1972",
    "paper",
    "Johnson P.B., Christy R.W., Optical constants of the noble metals, Phys. Rev. B 6 (1972) 4370",
  ),
  entry(
    "johnson-christy-1974",
    "paper",
    "Johnson P.B., Christy R.W., Optical constants of transition metals: Ti, V, Cr, Mn, Fe, Co, Ni, and Pd, Phys. Rev. B 9 (1974) 5056",
  ),
  entry(
    "rakic-1995",
    "paper",
    "Rakić A.D., Algorithm for the determination of intrinsic optical constants of metal films: application to aluminum, Appl. Opt. 34 (1995) 4755",
  ),
  entry(
    "werner-2009",
    "paper",
    "Werner W.S.M. et al., Optical constants and inelastic electron-scattering data for 17 elemental metals, J. Phys. Chem. Ref. Data 38 (2009) 1013",
    "low weight in the near infrared",
  ),
  entry(
    "hagemann-1975",
    "paper",
    "Hagemann H.-J., Gudat W., Kunz C., Optical constants from the far infrared to the x-ray region: Mg, Al, Cu, Ag, Au, Bi, C, and Al2O3, J. Opt. Soc. Am. 65 (1975) 742",
    "sparse in the near infrared",
  ),
  entry("querry-1985", "dataset", "Querry M.R., Optical Constants, Contractor Report CRDC-CR-85034 (1985)"),
  entry(
    "sharma-2005",
    "paper",
    "Sharma G., Wu W., Dalal E.N., The CIEDE2000 color-difference formula: implementation notes, supplementary test data, and mathematical observations, Color Res. Appl. 30 (2005) 21",
  ),
  entry(
    "sarkar-2019",
    "paper",
    "Sarkar S. et al., Hybridized guided-mode resonances via colloidal plasmonic self-assembled grating, ACS Appl. Mater. Interfaces 11 (2019) 13752",
    "index of a deposited film of titanium dioxide",
  ),
  entry(
    "wyman-2013",
    "paper",
    "Wyman C., Sloan P.-P., Shirley P., Simple analytic approximations to the CIE XYZ color matching functions, J. Comput. Graph. Tech. 2 (2013) no. 2, 1",
    "coefficients from memory, checked against the tables of CIE 15",
  ),
  entry(
    "memory-visible-optics",
    "memory",
    "Usual optical constants of cuprous oxide and of chromium-rich oxide in the visible, written down from memory",
    "grown oxides differ by a tenth in n and by a factor of two in k",
  ),
  entry("cie-15", "standard", "CIE 15, Colorimetry"),
  entry(
    "iec-61966-2-1",
    "standard",
    "IEC 61966-2-1, Multimedia systems and equipment: colour measurement and management: default RGB colour space sRGB",
  ),
];
