export interface ServeFlags {
  readonly port: number;
  readonly data: string;
}

export async function serveVerb(_flags: ServeFlags): Promise<string> {
  return "";
}
