import { useMemo, useState } from "react";
import { classAddress, isFromFile, isThisMachine, keepClassAddress } from "../../../exchange/share/class-address";
import { checkedCode } from "../../../exchange/share/code";
import { linkTo } from "../../../exchange/share/link";
import { useDocument } from "../../../store/document";
import { ClassAddress } from "./class-address-form";
import { CopyField } from "./copy-field";
import { PasteField } from "./paste-field";
import { QrFigure } from "./qr-figure";
import css from "./share.module.css";

/** Common practice: mail and chat programs have cut longer ones. */
const USUALLY_WHOLE = 2000;

/** Where the link of a page leads that others can't open: one at an address of this machine alone, or one from a file. */
function whereTo(isOwn: boolean, leadsToClass: boolean): string {
  if (isOwn)
    return leadsToClass
      ? "This page is at an address that only this machine can reach, so the link leads to the address of your class."
      : "This link opens on this machine only: its address means the machine itself. Give the address at which your class opens Turnwise, or hand on a file.";
  return leadsToClass
    ? "This page was opened from a file, so the link leads to the address of your class."
    : "This page was opened from a file, so no link leads to it. Hand on the code: others paste it into Share… of their own Turnwise.";
}

/** The link (or, on a page from a file, the code) of the drive on the bench, its picture, and a field for one that came. */
export const ShareContents = ({ page = window.location }: { readonly page?: Pick<Location, "protocol" | "href"> }) => {
  const drive = useDocument((state) => state.drive);
  const code = useMemo(() => checkedCode(drive), [drive]);
  const fromFile = isFromFile(page);
  const [kept, setKept] = useState(classAddress);
  const isOwn = !fromFile && isThisMachine(page);
  const own = fromFile ? null : page.href;
  const address = fromFile || isOwn ? (kept ?? own) : own;
  const isReached = address !== null && !isThisMachine({ href: address });
  const link = code !== null && address !== null ? linkTo(address, code) : null;

  return (
    <div className={css.contents}>
      <p>
        Nothing leaves this machine: the drive is in the {link ? "link" : "code"} itself, with its title, names and
        notes.
        {link ? " Browsers send no server what stands after #." : ""}
      </p>
      {code === null ? (
        <p className={css.trouble}>
          This drive holds more than a link can carry. Save it as a file, and hand that on instead.
        </p>
      ) : (
        <div className={css.columns}>
          <div className={css.column}>
            <CopyField key={link ?? code} words={link ? "Link" : "Code"} text={link ?? code} />
            {link && link.length > USUALLY_WHOLE ? (
              <p>Some mail and chat programs cut links this long: try it, or save the drive as a file.</p>
            ) : null}
            {fromFile || isOwn ? (
              <>
                <p>{whereTo(isOwn, isOwn ? isReached : link !== null)}</p>
                <ClassAddress
                  kept={kept}
                  onKeep={(next) => {
                    keepClassAddress(next);
                    setKept(next);
                  }}
                />
              </>
            ) : null}
          </div>
          {link ? <QrFigure text={link} isReached={isReached} /> : null}
        </div>
      )}
      <PasteField />
    </div>
  );
};
