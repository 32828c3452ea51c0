/** What is marked over the picture: notes by their pins, and what is being measured. Comes when there is anything to mark. */
import { useView } from "../store/view";
import { Dimension } from "./dimension";
import { Pins } from "./pins";

export const Marks = () => {
  const isMeasuring = useView((state) => state.aside === "measure");
  return (
    <>
      {isMeasuring && <Dimension />}
      <Pins />
    </>
  );
};
