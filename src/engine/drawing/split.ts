/** Where along a curve something is so and where not: looked at in equal steps, each change then sought by halving. */

export interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly is: boolean;
}

const HALVINGS = 20;

/** Stretches of t from 0 to 1, in order, each unlike its neighbours. Looked at within each step: the ends themselves may be in doubt. */
export function splitWhere(test: (t: number) => boolean, samples: number): Stretch[] {
  const stretches: Stretch[] = [];
  let from = 0;
  let last = 0.5 / samples;
  let is = test(last);
  for (let i = 1; i < samples; i++) {
    const t = (i + 0.5) / samples;
    const next = test(t);
    if (next !== is) {
      let [low, high] = [last, t];
      for (let k = 0; k < HALVINGS; k++) {
        const middle = (low + high) / 2;
        if (test(middle) === is) low = middle;
        else high = middle;
      }
      const change = (low + high) / 2;
      stretches.push({ from, to: change, is });
      from = change;
      is = next;
    }
    last = t;
  }
  stretches.push({ from, to: 1, is });
  return stretches;
}
