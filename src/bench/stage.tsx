/** The 3D picture: a canvas with its own React root for scene objects. Draws on demand; follows size, pixel ratio and a lost context. */
import { createRoot, extend, type ReconcilerRoot } from "@react-three/fiber";
import { useEffect, useRef } from "react";
import {
  DirectionalLight,
  Group,
  HemisphereLight,
  LineSegments,
  Mesh,
  PerspectiveCamera,
  setConsoleFunction,
  Scene as ThreeScene,
  WebGLRenderer,
} from "three";
import css from "./bench.module.css";
import { setScreenSize } from "./camera";
import { VIEW_ANGLE } from "./orbit";
import { Scene } from "./scene";
import { useColours } from "./theme-colours";

// Only what the scene's elements name, so that the bundle leaves out the rest of three.
extend({ Group, Mesh, LineSegments, HemisphereLight, DirectionalLight });

// The fiber library makes a clock that three calls deprecated: a message for its authors, not for who turns gears.
setConsoleFunction((type, message: string, ...rest: unknown[]) => {
  if (!message.startsWith("THREE.Clock:")) console[type](message, ...rest);
});

/** Sharper than this shows no more and costs much. */
const MOST_PIXELS = 2;

interface StageProps {
  /** The picture can't be had, or was lost. */
  readonly onFail: (why: "noWebGL" | "lost") => void;
}

/** What a test (or a figure) asks of a canvas by the event `bench:inspect`, whose detail is a function that takes this. */
export interface Inspected {
  readonly scene: ThreeScene;
  readonly camera: PerspectiveCamera;
  readonly gl: WebGLRenderer;
  /** Draws now. */
  readonly draw: () => void;
}

export const Stage = ({ onFail }: StageProps) => {
  const host = useRef<HTMLDivElement>(null);
  const fail = useRef(onFail);
  fail.current = onFail;
  const { ground } = useColours();

  useEffect(() => {
    const box = host.current;
    if (!box) return;
    // A canvas of its own for each start: a context once lost is not asked for again.
    const canvas = document.createElement("canvas");
    canvas.className = css.canvas ?? "";
    box.append(canvas);
    const size = () => ({
      width: Math.max(1, box.clientWidth),
      height: Math.max(1, box.clientHeight),
      top: 0,
      left: 0,
    });
    let gl: WebGLRenderer;
    try {
      gl = new WebGLRenderer({ canvas, antialias: true, alpha: true, powerPreference: "high-performance" });
    } catch {
      canvas.remove();
      fail.current("noWebGL");
      return;
    }
    const camera = new PerspectiveCamera((VIEW_ANGLE * 180) / Math.PI, 1, 1, 1000);
    camera.up.set(0, 0, 1);
    const scene = new ThreeScene();
    const root: ReconcilerRoot<HTMLCanvasElement> = createRoot(canvas);
    let isGone = false;
    const lost = (event: Event): void => {
      event.preventDefault();
      if (!isGone) fail.current("lost");
    };
    canvas.addEventListener("webglcontextlost", lost);
    const configured = root.configure({
      gl,
      camera,
      scene,
      size: size(),
      dpr: [1, MOST_PIXELS],
      frameloop: "demand",
      flat: true,
    });
    let watch: ResizeObserver | undefined;
    let inspect: ((event: Event) => void) | undefined;
    configured.then(() => {
      if (isGone) return;
      const store = root.render(<Scene />);
      watch = new ResizeObserver(() => {
        const { width, height } = size();
        const had = store.getState().size;
        setScreenSize(width, height);
        if (width === had.width && height === had.height) return;
        store.getState().setSize(width, height);
      });
      watch.observe(box);
      inspect = (event) => {
        const ask: unknown = event instanceof CustomEvent ? event.detail : null;
        const draw = (): void => store.getState().advance(performance.now() / 1000);
        if (typeof ask === "function") ask({ scene, camera, gl, draw } satisfies Inspected);
      };
      canvas.addEventListener("bench:inspect", inspect);
      box.dataset.drawn = "true";
    });
    setScreenSize(size().width, size().height);
    return () => {
      isGone = true;
      watch?.disconnect();
      canvas.removeEventListener("webglcontextlost", lost);
      if (inspect) canvas.removeEventListener("bench:inspect", inspect);
      delete box.dataset.drawn;
      root.unmount();
      canvas.remove();
    };
  }, []);

  return <div ref={host} className={css.stage} style={{ background: ground }} aria-hidden="true" />;
};
