/** Tiny line pictures of the kinds of stage: toothed rims dashed, smooth ones plain, cones from the side. */
import type { ReactNode } from "react";

const TEETH = { strokeDasharray: "2.2 1.4" } as const;

const BESIDE = (rim: object): ReactNode => (
  <>
    <circle cx="14" cy="18" r="8" {...rim} />
    <circle cx="34" cy="18" r="12" {...rim} />
    <circle cx="14" cy="18" r="1" />
    <circle cx="34" cy="18" r="1" />
  </>
);
const RING = (rim: object): ReactNode => (
  <>
    <circle cx="24" cy="18" r="16" />
    <circle cx="24" cy="18" r="13" {...rim} />
    <circle cx="30.5" cy="18" r="6.5" {...rim} />
    <circle cx="30.5" cy="18" r="1" />
  </>
);
const CONES = (rim: object): ReactNode => (
  <>
    <path d="M14 9 L14 29 L22 24 L22 14 Z" />
    <path d="M17 7 L43 7 L36 13 L24 13 Z" />
    <path d="M14 9 L22 14 M14 29 L22 24 M17 7 L24 13 M43 7 L36 13" {...rim} strokeWidth="3" />
    <path d="M4 19 L14 19 M30 7 L30 1" />
  </>
);

const PICTURES: Readonly<Record<string, ReactNode>> = {
  "spur-pair": BESIDE(TEETH),
  "ring-pair": RING(TEETH),
  "bevel-pair": CONES(TEETH),
  "wheel-pair": BESIDE({}),
  "ring-wheel-pair": RING({}),
  "cone-pair": CONES({ strokeDasharray: "none" }),
};

export const StageIcon = ({ kind }: { readonly kind: string }) => (
  <svg
    width="48"
    height="36"
    viewBox="0 0 48 36"
    fill="none"
    stroke="currentColor"
    strokeWidth="1.5"
    strokeLinejoin="round"
    aria-hidden="true"
  >
    {PICTURES[kind] ?? BESIDE({})}
  </svg>
);
