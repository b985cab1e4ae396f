/**
 * Guards a public function's argument: a number outside its range never becomes an answer.
 * @throws RangeError naming the quantity, what came and what is allowed
 */
export function within(name: string, value: number, low: number, high: number, unit: string): number {
  if (!(value >= low && value <= high)) {
    throw new RangeError(`${name} is ${value} ${unit}; allowed is ${low} to ${high} ${unit}`);
  }
  return value;
}
