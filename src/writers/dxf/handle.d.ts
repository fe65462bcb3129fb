/** The library's own counter of entity handles; it ships no types for this file. */
declare module 'dxf-writer/src/Handle.js' {
  const Handle: { seed: number };
  export = Handle;
}
