/** Index of what a list has by that name. @throws RangeError that names all that there are */
export function indexOf(list: readonly { name: string }[], name: string, what: string): number {
  const index = list.findIndex((one) => one.name === name);
  if (index >= 0) return index;
  throw new RangeError(`the case has no ${what} ${name}; it has ${list.map((one) => one.name).join(', ')}`);
}
