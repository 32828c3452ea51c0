/**
 * Scene objects as React components: each holds one object of three, hangs it under the object above it, and writes its props to it
 * after a render. That is all the bench needs of a scene library, and a tenth of the weight of one.
 */
import { createContext, memo, type ReactNode, use, useEffect, useLayoutEffect, useRef, useState } from "react";
import {
  type BufferGeometry,
  DirectionalLight,
  Group,
  HemisphereLight,
  LineSegments,
  type Material,
  Mesh,
  type Object3D,
} from "three";
import type { Picture } from "./picture";

const PictureContext = createContext<Picture | null>(null);
const ParentContext = createContext<Object3D | null>(null);

/** The picture that the components below stand in. */
export function usePicture(): Picture {
  const picture = use(PictureContext);
  if (!picture) throw new Error("A scene object stands outside of a picture.");
  return picture;
}

export const InPicture = ({ picture, children }: { readonly picture: Picture; readonly children: ReactNode }) => (
  <PictureContext value={picture}>
    <ParentContext value={picture.scene}>{children}</ParentContext>
  </PictureContext>
);

/** Called before each drawing, in order of `order`; never renders React. */
export function useFrame(update: () => void, order: number): void {
  const picture = usePicture();
  const latest = useRef(update);
  latest.current = update;
  useEffect(() => picture.onFrame(() => latest.current(), order), [picture, order]);
}

interface Placing {
  readonly name?: string;
  readonly userData?: Record<string, unknown>;
  /** mm along z. */
  readonly z?: number;
  /** Radians. */
  readonly turnX?: number;
  readonly turnZ?: number;
  /** In the place of the three above: a whole matrix, column by column. */
  readonly frame?: readonly number[];
}

/**
 * Hangs an object under its parent while the component is there, and redraws after every render. Its place is reckoned then and not
 * for every frame; where it is driven, whoever drives it writes its matrix.
 */
function useHung(
  object: Object3D,
  { name = "", userData, z = 0, turnX = 0, turnZ = 0, frame }: Placing,
  isDriven = false,
): void {
  const picture = usePicture();
  const parent = use(ParentContext);
  useLayoutEffect(() => {
    parent?.add(object);
    return () => {
      parent?.remove(object);
      picture.redraw();
    };
  }, [parent, object, picture]);
  useLayoutEffect(() => {
    object.name = name;
    object.userData = userData ?? {};
    if (!isDriven) {
      object.position.z = z;
      object.rotation.set(turnX, 0, turnZ);
      object.updateMatrix();
      if (frame) object.matrix.fromArray(frame);
      object.matrixWorldNeedsUpdate = true;
    }
    picture.redraw();
  });
}

const unmoved = <T extends Object3D>(object: T): T => {
  object.matrixAutoUpdate = false;
  return object;
};

interface GroupProps extends Placing {
  readonly children?: ReactNode;
  /** Its matrix is written each frame by whoever takes it here; null when it goes. */
  readonly onObject?: (group: Group | null) => void;
}

export const SceneGroup = ({ children, onObject, ...placing }: GroupProps) => {
  const [group] = useState(() => unmoved(new Group()));
  const isDriven = onObject !== undefined;
  useHung(group, placing, isDriven);
  const latest = useRef(onObject);
  latest.current = onObject;
  useLayoutEffect(() => {
    if (!isDriven) return;
    latest.current?.(group);
    return () => latest.current?.(null);
  }, [group, isDriven]);
  return <ParentContext value={group}>{children}</ParentContext>;
};

interface BodyProps extends Placing {
  readonly geometry: BufferGeometry;
  readonly material: Material;
  /** Later ones are drawn over earlier ones. */
  readonly order?: number;
}

function useBody(object: Mesh | LineSegments, { geometry, material, order = 0, ...placing }: BodyProps): null {
  const { batches } = usePicture();
  useHung(object, placing);
  useLayoutEffect(() => {
    object.geometry = geometry;
    object.material = material;
    object.renderOrder = order;
    batches.put(object);
  });
  useLayoutEffect(() => () => batches.drop(object), [batches, object]);
  return null;
}

export const SceneMesh = (props: BodyProps) => {
  const [mesh] = useState(() => unmoved(new Mesh()));
  return useBody(mesh, props);
};

export const SceneLines = (props: BodyProps) => {
  const [lines] = useState(() => unmoved(new LineSegments()));
  return useBody(lines, props);
};

export const SkyLight = memo(function SkyLight({
  sky,
  ground,
  strength,
}: {
  readonly sky: string;
  readonly ground: string;
  readonly strength: number;
}) {
  const [light] = useState(() => new HemisphereLight());
  useHung(light, { name: "sky" });
  useLayoutEffect(() => {
    // The sky is up: z.
    light.position.set(0, 0, 1);
    light.color.set(sky);
    light.groundColor.set(ground);
    light.intensity = strength;
  });
  return null;
});

export const Lamp = ({
  strength,
  onObject,
}: {
  readonly strength: number;
  readonly onObject: (lamp: DirectionalLight | null) => void;
}) => {
  const [lamp] = useState(() => new DirectionalLight());
  useHung(lamp, { name: "lamp" });
  useLayoutEffect(() => {
    lamp.intensity = strength;
    onObject(lamp);
  });
  return null;
};
