/** The 3D picture on its canvas. Follows size, pixel ratio and a lost context; the scene stands in it as soon as there is one. */
import { useEffect, useRef, useState } from "react";
import { setConsoleFunction, WebGLRenderer } from "three";
import css from "./bench.module.css";
import { setScreenSize } from "./camera";
import { type OnStage, setOnStage } from "./on-stage";
import { Picture } from "./picture";
import { Scene } from "./scene";
import { InPicture } from "./scene-objects";

// Three tells the console of a lost context; the bench tells the person, who can do something about it.
setConsoleFunction((type, message, ...rest) => {
  if (type !== "log") console[type](message, ...rest);
});

/** Sharper than this shows no more and costs much. */
const MOST_PIXELS = 2;

interface StageProps {
  /** The picture can't be had, or was lost. */
  readonly onFail: (why: "noWebGL" | "lost") => void;
}

export const Stage = ({ onFail }: StageProps) => {
  const host = useRef<HTMLDivElement>(null);
  const fail = useRef(onFail);
  fail.current = onFail;
  const [picture, setPicture] = useState<Picture | null>(null);

  useEffect(() => {
    const box = host.current;
    if (!box) return;
    // A canvas of its own for each start: a context once lost is not asked for again.
    const canvas = document.createElement("canvas");
    canvas.className = css.canvas ?? "";
    const context = canvas.getContext("webgl2", { alpha: true, antialias: true, powerPreference: "high-performance" });
    if (!context) {
      fail.current("noWebGL");
      return;
    }
    box.append(canvas);
    const gl = new WebGLRenderer({ canvas, context });
    const made = new Picture({
      setSize: (width, height) => gl.setSize(width, height, false),
      setPixelRatio: (ratio) => gl.setPixelRatio(ratio),
      render: (scene, camera) => gl.render(scene, camera),
      dispose: () => gl.dispose(),
    });
    const lost = (event: Event): void => {
      event.preventDefault();
      fail.current("lost");
    };
    const inspect = (event: Event): void => {
      const ask: unknown = event instanceof CustomEvent ? event.detail : null;
      if (typeof ask === "function") ask(made);
    };
    const own: OnStage = {
      picture: made,
      canvas,
      isHeld: false,
      isLost: () => gl.getContext().isContextLost(),
      fill: () => fill(),
    };
    const fill = (): void => {
      if (own.isHeld) return;
      const [width, height] = [Math.max(1, box.clientWidth), Math.max(1, box.clientHeight)];
      setScreenSize(width, height);
      made.setSize(width, height, Math.min(MOST_PIXELS, window.devicePixelRatio || 1));
    };
    canvas.addEventListener("webglcontextlost", lost);
    canvas.addEventListener("bench:inspect", inspect);
    fill();
    const watch = new ResizeObserver(fill);
    watch.observe(box);
    box.dataset.drawn = "3d";
    setOnStage(own);
    setPicture(made);
    return () => {
      watch.disconnect();
      canvas.removeEventListener("webglcontextlost", lost);
      canvas.removeEventListener("bench:inspect", inspect);
      delete box.dataset.drawn;
      setOnStage(null);
      setPicture(null);
      made.dispose();
      canvas.remove();
    };
  }, []);

  return (
    <>
      <div ref={host} className={css.stage} aria-hidden="true" />
      {picture && (
        <InPicture picture={picture}>
          <Scene />
        </InPicture>
      )}
    </>
  );
};
