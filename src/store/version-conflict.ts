/** Somebody saved the record after it was read. One line for a person. */
export class VersionConflict extends Error {
  readonly current: number;
  constructor(kind: string, id: string, expected: number, current: number) {
    super(`${kind} ${id} has moved on: version ${current} is stored, the change was made from version ${expected}`);
    this.name = "VersionConflict";
    this.current = current;
  }
}
