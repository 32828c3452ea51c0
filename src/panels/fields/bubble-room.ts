/** Room that a bubble takes, px. */
const BUBBLE = { width: 260, height: 84 };

/** Where a bubble is not cut off by whatever scrolls around its field. */
export function roomFor(input: HTMLElement): { readonly end: boolean; readonly above: boolean } {
  let around = input.parentElement;
  while (around && around !== document.body && getComputedStyle(around).overflowX === "visible") {
    around = around.parentElement;
  }
  const room = (around ?? document.body).getBoundingClientRect();
  const box = (input.parentElement ?? input).getBoundingClientRect();
  return {
    end: box.left + BUBBLE.width > room.right && box.right - BUBBLE.width >= room.left,
    above: box.bottom + BUBBLE.height > room.bottom && box.top - BUBBLE.height > room.top,
  };
}
