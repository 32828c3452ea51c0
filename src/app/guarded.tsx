import type { ReactNode } from "react";
import { useDocument } from "../store/document";
import { ErrorBoundary } from "./error-boundary";

/** A region whose faults stay within it; another drive tries it anew. */
export const Guarded = ({ region, children }: { readonly region: string; readonly children: ReactNode }) => {
  const drive = useDocument((state) => state.drive);
  return (
    <ErrorBoundary region={region} resetOn={drive}>
      {children}
    </ErrorBoundary>
  );
};
