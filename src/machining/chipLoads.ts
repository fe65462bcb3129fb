export function chipLoadFor(m: string, d: number) {
  return { chipLoad: 0.012 * d, source: 'stub' };
}
