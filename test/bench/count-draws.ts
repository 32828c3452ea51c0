/**
 * Runs in the page, before its own script: counts the calls that draw something, and the frames. The calls themselves are left out, on both
 * sides: where there is no graphics card, pixels in software would take a hundred times the script that is measured.
 */
export function countDraws(): void {
  const counts = { draws: 0, frames: 0 };
  const context = WebGL2RenderingContext.prototype;
  for (const name of ["drawElements", "drawArrays", "drawElementsInstanced", "drawArraysInstanced"] as const) {
    Object.assign(context, {
      [name]() {
        counts.draws++;
      },
    });
  }
  // Many bodies in one call: that is what the page does, and what a call costs the page is left out here too.
  const getExtension = context.getExtension as (this: WebGL2RenderingContext, name: string) => unknown;
  const drawn = (): void => {
    counts.draws++;
  };
  Object.assign(context, {
    getExtension(this: WebGL2RenderingContext, name: string): unknown {
      const found = getExtension.call(this, name);
      return found !== null && name === "WEBGL_multi_draw"
        ? Object.assign(found as object, { multiDrawElementsWEBGL: drawn, multiDrawArraysWEBGL: drawn })
        : found;
    },
  });
  const count = (): void => {
    counts.frames++;
    requestAnimationFrame(count);
  };
  requestAnimationFrame(count);
  Object.assign(window, { drawCounts: counts });
}
