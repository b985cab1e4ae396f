/**
 * Guards a public function's argument: a number outside its range never becomes an answer.
 * @throws RangeError naming the quantity, what came and what is allowed
 */
export function within(name: string, value: number, low: number, high: number, unit: string): number {
  if (!(value >= low && value <= high)) {
    const suffix = unit === '' ? '' : ` ${unit}`;
    throw new RangeError(`${name} is ${value}${suffix}; allowed is ${low} to ${high}${suffix}`);
  }
  return value;
}
