// The package has no types. This states what is used of it.
declare module "heic-decode" {
  interface HeicPicture {
    readonly width: number;
    readonly height: number;
    decode(): Promise<{ readonly width: number; readonly height: number; readonly data: Uint8ClampedArray }>;
  }
  const heicDecode: {
    all(file: { readonly buffer: Uint8Array }): Promise<readonly HeicPicture[] & { dispose(): void }>;
  };
  // biome-ignore lint/style/noDefaultExport: it is the package's own
  export default heicDecode;
}
