/** The work was ended because its caller wished so; not a fault. */
export class SweepCancelled extends Error {
  constructor() {
    super("the work was cancelled");
    this.name = "SweepCancelled";
  }
}
