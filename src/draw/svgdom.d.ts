declare module 'svgdom' {
  /** A window with the parts of the DOM that SVG building needs. */
  export function createSVGWindow(): Window & { readonly document: Document }
}
