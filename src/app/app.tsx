import { Dialogs } from "./dialogs/dialogs";
import { DropZone } from "./drop-zone";
import { ErrorBoundary } from "./error-boundary";
import { Layout } from "./layout";
import { PresentSlot } from "./present/present-slot";

/** The whole page. What stands over it goes on where the layout itself should fail. */
export const App = () => (
  <>
    <ErrorBoundary region="The page">
      <Layout />
    </ErrorBoundary>
    <PresentSlot />
    <Dialogs />
    <DropZone />
  </>
);
