/** K, 20 °C: where the tables of a metal begin (convention of ours). */
export const ROOM = 293.15;
