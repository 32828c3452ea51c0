/** A number of what is being chosen, not yet of the drive: Escape, or a text that is no number, puts back what stood there before. */
import { useRef } from "react";
import { NumberField } from "../fields/number-field";
import type { NumberFieldProps } from "../fields/number-props";
import styles from "./add-stage.module.css";

type Props = Omit<NumberFieldProps, "onChange" | "value"> & {
  readonly value: number;
  readonly onChange: (value: number) => void;
};

export function LocalNumber({ onChange, ...props }: Props) {
  const before = useRef(props.value);
  return (
    <span
      className={styles.number}
      onFocusCapture={() => {
        before.current = props.value;
      }}
      onKeyDownCapture={(event) => {
        if (event.key === "Escape" && props.value !== before.current) onChange(before.current);
        if (event.key === "Enter") before.current = props.value;
      }}
    >
      <NumberField
        {...props}
        onTakeBack={onChange}
        onChange={(value) => {
          onChange(value);
          return null;
        }}
      />
    </span>
  );
}
