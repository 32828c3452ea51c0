/** The flat drawing on its canvas: painted anew whenever the drive turned or the eye moved, and not otherwise. No React a frame. */
import { useEffect, useMemo, useRef } from "react";
import { clockStore } from "../store/clock";
import { troubleStore } from "../store/trouble";
import { useView, viewStore } from "../store/view";
import css from "./bench.module.css";
import { benchLayout } from "./bench-layout";
import { currentOrbit, glideOn, onEye, setScreenSize } from "./camera";
import { type FlatPicture, paintFlat } from "./flat-paint";
import { placeOverlay } from "./overlay";
import { useShownDrive } from "./shown-drive";
import { useColours } from "./theme-colours";
import { onTick } from "./ticking";
import { ghostTurningOf } from "./turning";

export const FlatDrawing = () => {
  const host = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const { layout, turning } = useShownDrive();
  const colours = useColours();
  const ghost = useView((state) => state.ghost);
  const shownGhost = useMemo(
    () =>
      ghost && {
        layout: benchLayout(ghost.solved),
        turning: ghostTurningOf(ghost.solved),
        ghosts: [...ghost.shafts, ...(ghost.gears ?? [])],
      },
    [ghost],
  );

  useEffect(() => {
    const box = host.current;
    const sheet = canvas.current;
    // Drawn by the processor: this drawing is there for who has no graphics card worth the name.
    const context = sheet?.getContext("2d", { willReadFrequently: true });
    if (!box || !sheet || !context) return;
    let frame = 0;
    const paint = (): void => {
      frame = 0;
      const isGliding = glideOn(performance.now());
      const ratio = Math.min(2, window.devicePixelRatio || 1);
      const [width, height] = [Math.max(1, box.clientWidth), Math.max(1, box.clientHeight)];
      setScreenSize(width, height);
      if (sheet.width !== Math.round(width * ratio) || sheet.height !== Math.round(height * ratio)) {
        sheet.width = Math.round(width * ratio);
        sheet.height = Math.round(height * ratio);
      }
      context.setTransform(ratio, 0, 0, ratio, 0, 0);
      turning.update();
      const { selection, hover } = viewStore.getState();
      const { direction } = clockStore.getState();
      const picture: FlatPicture = {
        context,
        layout,
        turning,
        orbit: currentOrbit(),
        width,
        height,
        colours,
        selection,
        hover,
        direction,
        troubles: troubleStore.getState().words,
      };
      paintFlat(picture);
      if (shownGhost) {
        shownGhost.turning.update();
        paintFlat({ ...picture, ...shownGhost });
      }
      placeOverlay();
      if (isGliding) ask();
    };
    const ask = (): void => {
      frame ||= requestAnimationFrame(paint);
    };
    paint();
    const watch = new ResizeObserver(ask);
    watch.observe(box);
    const off = [
      onTick(ask),
      onEye(ask),
      viewStore.subscribe(ask),
      clockStore.subscribe(ask),
      troubleStore.subscribe(ask),
    ];
    return () => {
      cancelAnimationFrame(frame);
      watch.disconnect();
      for (const stop of off) stop();
    };
  }, [layout, turning, colours, shownGhost]);

  return (
    <div ref={host} className={css.stage} aria-hidden="true" data-drawn="flat">
      <canvas ref={canvas} className={css.canvas} />
    </div>
  );
};
