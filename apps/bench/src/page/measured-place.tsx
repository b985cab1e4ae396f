interface Props {
  /** Where the tub stood when it was measured, in words. */
  place: string;
  /** What the page shows otherwise now, in words; empty: nothing. */
  changed: readonly string[];
  onShow: () => void;
  onRebind: () => void;
  onForget: () => void;
}

/** Says which car the readings belong to, and asks what is meant when the page shows another. */
export function MeasuredPlace({ place, changed, onShow, onRebind, onForget }: Props) {
  if (changed.length === 0) {
    return (
      <div class="measured">
        <p>
          Measured in <b>{place}</b>. What is typed in belongs to the car as it is shown now.
        </p>
        <div class="row">
          <button type="button" onClick={onForget}>
            Clear all measures
          </button>
        </div>
      </div>
    );
  }
  return (
    <div class="measured fault" role="alert">
      <p>
        Measured in <b>{place}</b>. The page now shows <b>{changed.join(', ')}</b>: what was typed in stays
        with the car as it was measured, and nothing more can be typed in until this is settled.
      </p>
      <div class="row">
        <button type="button" onClick={onShow}>
          Show the car as it was measured
        </button>
        <button type="button" onClick={onRebind}>
          It was measured as shown now
        </button>
        <button type="button" onClick={onForget}>
          Clear all measures
        </button>
      </div>
    </div>
  );
}
