import { Copy, Download } from "lucide-react";
import { lazy, Suspense, useId, useMemo, useState } from "react";
import { scaleText } from "../../engine/drawing/on-paper";
import { copyPicture, pixelHeight, pngOf, readWidth, svgFile } from "../../exchange/figure-files";
import { figureName } from "../../exchange/file-name";
import { download } from "../../exchange/save";
import { DrawingFields } from "../../panels/drawings/drawings-panel";
import type { Figure } from "../../panels/drawings/orders";
import { ChoiceField } from "../../panels/fields/choice-field";
import { copyText } from "../../store/clipboard";
import { useDocument } from "../../store/document";
import { announce } from "../../store/view";
import { Dialog } from "./dialog";
import { showDialog } from "./dialog-store";
import { Press } from "./figure-press";
import css from "./figures-dialog.module.css";
import { useAddress } from "./use-address";
import { isDrawn, LOOP, SUBJECTS, type SubjectName, useFigure } from "./use-figure";

/** Pixels; wide enough to stay sharp when it is projected. */
const USUAL_WIDTH = "2000";

/** Comes with the first animation that is asked for, and what takes it from the bench with it. */
const LoopFigure = lazy(() =>
  import("./loop-figure").then(
    ({ LoopFigure }) => ({ default: LoopFigure }),
    () => ({
      default: () => (
        <p role="alert" className={css.trouble}>
          What makes animations could not be loaded. The other figures work without it.
        </p>
      ),
    }),
  ),
);

/** Figures of the drive for slides and print. */
export const FiguresDialog = () => {
  const solved = useDocument((state) => state.solved);
  const [subject, setSubject] = useState<SubjectName | typeof LOOP>("three");
  return (
    <Dialog title="Figures" onClose={() => showDialog(null)}>
      <div className={css.fields}>
        <ChoiceField label="Figure of" value={subject} choices={SUBJECTS} onChange={setSubject} />
        {subject !== LOOP && isDrawn(subject) ? (
          <DrawingFields solved={solved} hasSection={subject === "section"} />
        ) : null}
      </div>
      {subject === LOOP ? (
        <Suspense>
          <LoopFigure />
        </Suspense>
      ) : (
        <PaperFigure subject={subject} title={solved.drive.title} />
      )}
    </Dialog>
  );
};

/** A figure on paper: drawn, or set as text. */
const PaperFigure = ({ subject, title }: { readonly subject: SubjectName; readonly title: string }) => {
  const { figure, trouble, isFailed, again } = useFigure(subject);
  const words = SUBJECTS.find(({ value }) => value === subject)?.words ?? "";
  return (
    <>
      <Preview figure={figure} words={words} isScaled={isDrawn(subject)} />
      {trouble === null ? null : (
        <p role="alert" className={css.trouble}>
          {trouble}
        </p>
      )}
      {isFailed ? (
        <div role="alert" className={css.trouble}>
          <p>The figure could not be made: what draws it did not come, or broke down. Everything else works.</p>
          <button type="button" className={css.button} onClick={again}>
            Draw again
          </button>
        </div>
      ) : null}
      <Files figure={figure} name={words} title={title} />
    </>
  );
};

interface PreviewProps {
  readonly figure: Figure | null;
  readonly words: string;
  readonly isScaled: boolean;
}

/** The file itself, on white paper in every theme; its own ground is transparent. */
const Preview = ({ figure, words, isScaled }: PreviewProps) => {
  const file = useMemo(() => figure && svgFile(figure.svg), [figure]);
  const address = useAddress(file);
  const size = figure && [figure.width, figure.height].map(Math.round).join(" × ");
  return (
    <figure className={css.preview} aria-busy={figure === null}>
      <div className={css.paper}>{address ? <img src={address} alt={`${words} as it will be saved`} /> : null}</div>
      <figcaption>
        {figure ? `${size} mm of paper${isScaled ? `, scale ${scaleText(figure.scale)}` : ""}` : "…"}
      </figcaption>
    </figure>
  );
};

interface FilesProps {
  readonly figure: Figure | null;
  readonly name: string;
  readonly title: string;
}

const NOT_COPIED = "The browser does not let this page copy that: download it instead.";

/** Saving and copying, and what came of it. */
const Files = ({ figure, name, title }: FilesProps) => {
  const [typed, setTyped] = useState(USUAL_WIDTH);
  const [outcome, setOutcome] = useState("");
  const id = useId();
  const pixels = useMemo(() => (figure ? readWidth(typed, figure) : null), [typed, figure]);
  const wrong = typeof pixels === "string" ? pixels : null;
  const tell = (words: string): void => {
    setOutcome(words);
    announce(words);
  };
  const save = (file: Blob, ending: "svg" | "png"): void => {
    const fileName = figureName(title, name, ending);
    download(file, fileName);
    tell(`Saved as ${fileName}.`);
  };
  /** Does something with the PNG, and says so where there is none. */
  const withPng = async (use: (png: Promise<Blob>) => Promise<void>): Promise<void> => {
    if (!figure || typeof pixels !== "number") return;
    try {
      await use(pngOf(figure.svg, figure, pixels));
    } catch {
      tell(`The browser could not paint a picture ${pixels} pixels wide: choose fewer, or take the SVG.`);
    }
  };
  const noSvg = figure === null;
  const noPng = typeof pixels !== "number";
  return (
    <div className={css.files}>
      <div className={css.row}>
        <Press words="Download SVG" is={Download} off={noSvg} run={() => figure && save(svgFile(figure.svg), "svg")} />
        <Press
          words="Copy SVG"
          is={Copy}
          off={noSvg}
          run={async () => {
            if (figure) tell((await copyText(figure.svg)) ? "The SVG is copied, as text." : NOT_COPIED);
          }}
        />
      </div>
      <div className={css.row}>
        <label htmlFor={id}>PNG width</label>
        <input
          id={id}
          className={css.width}
          type="text"
          inputMode="numeric"
          autoComplete="off"
          value={typed}
          aria-invalid={wrong !== null || undefined}
          aria-describedby={`${id}-height`}
          onChange={(event) => setTyped(event.target.value)}
        />
        <span id={`${id}-height`} className={wrong === null ? css.soft : css.trouble}>
          {wrong ?? `px${figure && typeof pixels === "number" ? `, ${pixelHeight(pixels, figure)} px high` : ""}`}
        </span>
      </div>
      <div className={css.row}>
        <Press
          words="Download PNG"
          is={Download}
          off={noPng}
          run={() => withPng(async (png) => save(await png, "png"))}
        />
        <Press
          words="Copy PNG"
          is={Copy}
          off={noPng}
          run={() => withPng(async (png) => tell((await copyPicture(png)) ? "The picture is copied." : NOT_COPIED))}
        />
      </div>
      <output className={css.soft}>{outcome}</output>
    </div>
  );
};
