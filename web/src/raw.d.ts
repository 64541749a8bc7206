// A file's text, taken in when the page is built (build.mjs; vitest does the same).
declare module "*?raw" {
  const text: string;
  export default text;
}
