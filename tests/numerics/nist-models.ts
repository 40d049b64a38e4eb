/** Model functions of the NIST nonlinear sets: y from the parameters b and the row's x; the first cell of a row is y. */
type Model = (b: ArrayLike<number>, x: readonly number[]) => number;

const { atan, cos, exp, PI, pow, sin } = Math;

const sumOfDecays: Model = (b, [x]) => b[0]! * exp(-b[1]! * x!) + b[2]! * exp(-b[3]! * x!) + b[4]! * exp(-b[5]! * x!);
const chwirut: Model = (b, [x]) => exp(-b[0]! * x!) / (b[1]! + b[2]! * x!);
const gauss: Model = (b, [x]) =>
  b[0]! * exp(-b[1]! * x!) +
  b[2]! * exp(-((x! - b[3]!) ** 2) / b[4]! ** 2) +
  b[5]! * exp(-((x! - b[6]!) ** 2) / b[7]! ** 2);
const cubicOverCubic: Model = (b, [x]) =>
  (b[0]! + x! * (b[1]! + x! * (b[2]! + x! * b[3]!))) / (1 + x! * (b[4]! + x! * (b[5]! + x! * b[6]!)));

export const nistModels: Readonly<Record<string, Model>> = {
  Bennett5: (b, [x]) => b[0]! * pow(b[1]! + x!, -1 / b[2]!),
  BoxBOD: (b, [x]) => b[0]! * (1 - exp(-b[1]! * x!)),
  Chwirut1: chwirut,
  Chwirut2: chwirut,
  DanWood: (b, [x]) => b[0]! * pow(x!, b[1]!),
  ENSO: (b, [x]) =>
    b[0]! +
    b[1]! * cos((2 * PI * x!) / 12) +
    b[2]! * sin((2 * PI * x!) / 12) +
    b[4]! * cos((2 * PI * x!) / b[3]!) +
    b[5]! * sin((2 * PI * x!) / b[3]!) +
    b[7]! * cos((2 * PI * x!) / b[6]!) +
    b[8]! * sin((2 * PI * x!) / b[6]!),
  Eckerle4: (b, [x]) => (b[0]! / b[1]!) * exp(-0.5 * ((x! - b[2]!) / b[1]!) ** 2),
  Gauss1: gauss,
  Gauss2: gauss,
  Gauss3: gauss,
  Hahn1: cubicOverCubic,
  Kirby2: (b, [x]) => (b[0]! + x! * (b[1]! + x! * b[2]!)) / (1 + x! * (b[3]! + x! * b[4]!)),
  Lanczos1: sumOfDecays,
  Lanczos2: sumOfDecays,
  Lanczos3: sumOfDecays,
  MGH09: (b, [x]) => (b[0]! * (x! * x! + x! * b[1]!)) / (x! * x! + x! * b[2]! + b[3]!),
  MGH10: (b, [x]) => b[0]! * exp(b[1]! / (x! + b[2]!)),
  MGH17: (b, [x]) => b[0]! + b[1]! * exp(-x! * b[3]!) + b[2]! * exp(-x! * b[4]!),
  Misra1a: (b, [x]) => b[0]! * (1 - exp(-b[1]! * x!)),
  Misra1b: (b, [x]) => b[0]! * (1 - (1 + (b[1]! * x!) / 2) ** -2),
  Misra1c: (b, [x]) => b[0]! * (1 - (1 + 2 * b[1]! * x!) ** -0.5),
  Misra1d: (b, [x]) => (b[0]! * b[1]! * x!) / (1 + b[1]! * x!),
  // of the logarithm of y
  Nelson: (b, [time, heat]) => b[0]! - b[1]! * time! * exp(-b[2]! * heat!),
  Rat42: (b, [x]) => b[0]! / (1 + exp(b[1]! - b[2]! * x!)),
  Rat43: (b, [x]) => b[0]! / pow(1 + exp(b[1]! - b[2]! * x!), 1 / b[3]!),
  Roszman1: (b, [x]) => b[0]! - b[1]! * x! - atan(b[2]! / (x! - b[3]!)) / PI,
  Thurber: cubicOverCubic,
};
