/** A rectangle as wide as the speed and as high as the torque: its area is the power. One scale for the whole drive. */
import type { Solved } from "../../engine/solved";
import { shaftColour } from "../../store/colours";
import styles from "./readouts.module.css";

const WIDTH = 72;
const HEIGHT = 48;
/** The least that is still seen, px; a sliver stands for anything smaller. */
const LEAST = 1;

export interface PowerScale {
  readonly speed: number;
  readonly torque: number;
}

/** The largest speed and torque of the drive; null where no load is given. */
export function powerScale({ motion, load }: Solved): PowerScale | null {
  let [speed, torque] = [0, 0];
  load.shafts.forEach((shaft, i) => {
    if (shaft.torque === null || motion.speed[i] === null) return;
    speed = Math.max(speed, Math.abs(motion.speed[i] ?? 0));
    torque = Math.max(torque, Math.abs(shaft.torque));
  });
  return speed > 0 && torque > 0 ? { speed, torque } : null;
}

/** px: how wide and how high; null for a shaft that carries no power. */
export function boxSize(solved: Solved, shaft: number, scale: PowerScale): readonly [number, number] | null {
  const speed = Math.abs(solved.motion.speed[shaft] ?? 0);
  const torque = Math.abs(solved.load.shafts[shaft]?.torque ?? 0);
  if (speed === 0 || torque === 0) return null;
  return [Math.max(LEAST, (speed / scale.speed) * WIDTH), Math.max(LEAST, (torque / scale.torque) * HEIGHT)];
}

interface PowerBoxProps {
  readonly shaft: number;
  /** As `boxSize` gives them. */
  readonly width: number;
  readonly height: number;
}

export function PowerBox({ shaft, width, height }: PowerBoxProps) {
  const colour = shaftColour(shaft).variable;
  const what = "As wide as the speed, as high as the torque: the area is the power";
  return (
    <svg className={styles.box} width={WIDTH + 2} height={HEIGHT + 2} role="img" aria-label={what}>
      <title>{what}</title>
      <path d={`M1 1V${HEIGHT + 1}H${WIDTH + 1}`} fill="none" stroke="var(--line-strong)" />
      <rect
        x={1}
        y={HEIGHT + 1 - height}
        width={width}
        height={height}
        fill={colour}
        fillOpacity={0.35}
        stroke={colour}
        strokeWidth={1.5}
      />
    </svg>
  );
}
