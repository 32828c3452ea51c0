/** Fitting a mesh that closes a loop and misses by a little. */
import { useMemo } from "react";
import { fitLoop } from "../../engine/wishes/fit-loop";
import { useDocument } from "../../store/document";
import { ChangeList } from "./change-list";
import { Found } from "./found";
import { useAnswer } from "./while-asking";

export function FitPanel({ mesh }: { readonly mesh: string }) {
  const solved = useDocument((state) => state.solved);
  const find = useMemo(() => () => fitLoop(solved, mesh), [solved, mesh]);
  const answer = useAnswer(find);
  const on = solved.index.shaftsOfMesh[solved.index.meshes.get(mesh) ?? -1]?.[1] ?? 0;
  return (
    <Found isAsked isFound={answer !== null} cannot={answer && "cannot" in answer ? answer.cannot : null}>
      {answer && "changes" in answer ? (
        <ChangeList label="Moves that fit it" shaft={solved.drive.shafts[on]?.id ?? ""} changes={answer.changes} />
      ) : null}
    </Found>
  );
}
