/** The one generator that is used, imported alone: the whole of seedrandom brings Node's crypto into a web page. */
declare module 'seedrandom/lib/tychei.js' {
  interface Generator {
    (): number;
    double(): number;
    int32(): number;
  }
  function tychei(seed: string): Generator;
  export default tychei;
}
