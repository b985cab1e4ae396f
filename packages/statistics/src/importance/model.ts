/**
 * A model whose inputs are standard normal numbers, each from a stream of its own, and that gives several numbers at
 * once. An event is that one of them exceeds a value.
 */
export interface NormalModel {
  /** Names of the streams, one a direction of normal space. */
  readonly directions: readonly string[];
  /** How many numbers each draw gives. */
  readonly outputs: number;
  /**
   * Works out the first `count` draws, at most BLOCK.
   * @param normals  [direction][draw]; not to be kept
   * @param values   [output][draw], to be filled; Infinity where no value is enough, never NaN
   */
  readonly evaluate: (
    normals: readonly Float64Array[],
    count: number,
    values: readonly Float64Array[],
  ) => void;
}
