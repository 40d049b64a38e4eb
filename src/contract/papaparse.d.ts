// The published types of this package pull in those of Node, and with them `process` and `Buffer` into rooms that
// must not see them. This states the one function that is used.
declare module "papaparse/papaparse.min.js" {
  const Papa: {
    parse(
      text: string,
      config: { readonly delimiter: string; readonly header: false; readonly skipEmptyLines: false },
    ): { readonly data: string[][]; readonly errors: readonly { readonly code: string; readonly row?: number }[] };
    unparse(rows: readonly (readonly string[])[], config: { readonly newline: string }): string;
  };
  // biome-ignore lint/style/noDefaultExport: it is the package's own
  export default Papa;
}
