export interface Room {
  readonly name: string;
  readonly line: string;
  readonly env: "core" | "node" | "web";
  readonly may: readonly string[];
}
export const rooms: readonly Room[];
export const roomNames: readonly string[];
