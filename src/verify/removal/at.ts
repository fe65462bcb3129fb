/** Item of a list that must be there. */
export function at<T>(list: ArrayLike<T>, index: number): T {
  const item = list[index];
  if (item === undefined) throw new Error(`item ${index} of a list of ${list.length}`);
  return item;
}
