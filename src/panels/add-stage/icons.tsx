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
    <path d="M12 11 L12 33 L19 27.5 L19 16.5 Z M12 11 L40 11 L33 16.5 L19 16.5" />
    <path d="M40 11 L33 16.5 M12 33 L19 27.5 M12 11 L19 16.5" {...rim} strokeWidth="4" />
    <path d="M3 22 L12 22 M26 11 L26 3" />
    <circle cx="26" cy="22" r="1" />
  </>
);

const PICTURES: Readonly<Record<string, ReactNode>> = {
  "spur-pair": BESIDE(TEETH),
  "ring-pair": RING(TEETH),
  "bevel-pair": CONES(TEETH),
  "wheel-pair": BESIDE({}),
  "ring-wheel-pair": RING({}),
  "cone-pair": CONES({ opacity: 0 }),
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
