/** How a cost grows, told so that a busy machine doesn't matter much: the best of several runs of each size, as a ratio. */
const best = (run: () => void): number => {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < 3; i++) {
    const start = performance.now();
    run();
    least = Math.min(least, performance.now() - start);
  }
  return least;
};

/** Cost of the large over cost of the small: about the ratio of their sizes where the cost is linear, its square where it isn't. */
export function growth(small: () => void, large: () => void): number {
  small();
  return best(large) / Math.max(best(small), 0.05);
}
