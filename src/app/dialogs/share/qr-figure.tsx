import { useMemo } from "react";
import { qrPicture } from "../../../exchange/share/qr";
import css from "./share.module.css";

/** Pixels a side that the picture may have; it has a whole number of pixels for each of its squares. */
const MOST = 300;

/** The QR picture of a link: dark on light in every theme, since many cameras read no other. */
/** `isReached`: another machine can follow the link. */
export const QrFigure = ({ text, isReached }: { readonly text: string; readonly isReached: boolean }) => {
  const picture = useMemo(() => qrPicture(text), [text]);
  if (!picture) {
    return (
      <p className={css.tooLong}>
        The link is too long for a QR picture that a camera could read. Hand on the link itself, or a file.
      </p>
    );
  }
  const { size, path } = picture;
  const side = size * Math.floor(MOST / size);
  return (
    <figure className={css.figure}>
      <svg
        role="img"
        aria-label="QR picture of the link"
        width={side}
        height={side}
        viewBox={`0 0 ${size} ${size}`}
        shapeRendering="crispEdges"
      >
        <path fill="#fff" d={`M0 0h${size}v${size}H0z`} />
        <path fill="#000" d={path} />
      </svg>
      <figcaption>
        {isReached
          ? "Point a phone's camera here to open the drive there."
          : "A phone can't open this one: its address is that of this machine."}
      </figcaption>
    </figure>
  );
};
