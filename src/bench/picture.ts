/** One 3D picture: scene, camera and renderer, drawn on demand and never otherwise. */
import { PerspectiveCamera, Scene } from "three";
import { Batches } from "./batches";
import { VIEW_ANGLE } from "./orbit";

/** Who puts a scene on the screen; a test may have one that draws nothing. */
export interface Drawer {
  setSize(width: number, height: number): void;
  setPixelRatio(ratio: number): void;
  render(scene: Scene, camera: PerspectiveCamera): void;
  dispose(): void;
}

/** What a test (or a figure) asks of a canvas by the event `bench:inspect`, whose detail is a function that takes the picture. */
export class Picture {
  readonly scene = new Scene();
  readonly camera = new PerspectiveCamera((VIEW_ANGLE * 180) / Math.PI, 1, 1, 1000);
  readonly batches = new Batches(this.scene);
  private readonly updates: { readonly update: () => void; readonly order: number }[] = [];
  private frame = 0;
  private isOver = false;

  constructor(private readonly drawer: Drawer) {
    this.camera.matrixAutoUpdate = true;
    // Reckoned once for each drawing, below: batches read them before the renderer does.
    this.scene.matrixWorldAutoUpdate = false;
  }

  /** Has `update` called before each drawing, lower orders first. */
  onFrame(update: () => void, order: number): () => void {
    const entry = { update, order };
    this.updates.push(entry);
    this.updates.sort((a, b) => a.order - b.order);
    this.redraw();
    return () => {
      this.updates.splice(this.updates.indexOf(entry), 1);
    };
  }

  /** Draws once before the screen shows its next picture. */
  readonly redraw = (): void => {
    if (!this.isOver) this.frame ||= requestAnimationFrame(this.draw);
  };

  /** Draws now. */
  readonly draw = (): void => {
    cancelAnimationFrame(this.frame);
    this.frame = 0;
    if (this.isOver) return;
    for (const { update } of this.updates) update();
    this.scene.updateMatrixWorld();
    this.batches.place();
    this.drawer.render(this.scene, this.camera);
  };

  setSize(width: number, height: number, ratio: number): void {
    this.drawer.setPixelRatio(ratio);
    this.drawer.setSize(width, height);
    this.camera.aspect = width / height;
    // At once: a resized canvas is empty until it is drawn on.
    this.draw();
  }

  dispose(): void {
    this.isOver = true;
    cancelAnimationFrame(this.frame);
    this.batches.dispose();
    this.drawer.dispose();
  }
}
