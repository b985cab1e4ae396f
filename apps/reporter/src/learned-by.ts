/** How an input is learned, by how long one value of it holds: a tape tells nothing of what every run draws anew. */
export const LEARNED_BY = {
  car: 'fixed for the car: measure it once',
  run: 'new every run: log runs, no tape tells it',
} as const;
