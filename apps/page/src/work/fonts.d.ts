/** The letters' outlines, packed by `packOutlines` and deflated into the script when the page is built. */
declare module 'fayplate:regular' {
  const bytes: Uint8Array;
  export default bytes;
}
declare module 'fayplate:bold' {
  const bytes: Uint8Array;
  export default bytes;
}
