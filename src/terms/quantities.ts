/**
 * Names for SI quantities. They are plain numbers: the name documents the unit at every signature, and the edges
 * (`#units`, `#contract`) are where a number gets or loses its unit.
 */
export type Metre = number;
export type SquareMetre = number;
export type Second = number;
export type Hertz = number;
export type Watt = number;
export type Joule = number;
export type Kelvin = number;
export type MetrePerSecond = number;
export type MetrePerSecondSquared = number;
export type JoulePerSquareMetre = number;
export type WattPerSquareMetre = number;
export type WattPerMetreKelvin = number;
export type KilogramPerCubicMetre = number;
export type JoulePerKilogramKelvin = number;
export type JoulePerKilogram = number;
export type JoulePerMole = number;
export type PerMetre = number;
export type PerSecond = number;
export type PerKelvin = number;
export type Pascal = number;
export type JoulePerMetre = number;
export type SquareMetrePerSecond = number;
export type Radian = number;
/** A pure number, usually a share between 0 and 1. */
export type Ratio = number;
