/** Molar gas constant, J/(mol·K): exact in the SI of 2019 (BIPM, SI Brochure, 9th ed.). */
export const GAS_CONSTANT = 8.314462618;
