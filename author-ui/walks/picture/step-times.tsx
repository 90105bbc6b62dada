import { scaleLog } from '@visx/scale';
import { BoxPlot } from '@visx/stats';
import { useId } from 'react';
import { type MinutesBins, type PictureStep, quantileOf } from '../../../engine/review/index.ts';
import { minutesWords } from '../walk-words.ts';

export type Quartiles = { readonly low: number; readonly first: number; readonly median: number; readonly third: number; readonly high: number };

/** Where a tenth, a quarter, half, three quarters and nine tenths of the stays lie. */
function quartilesOf(bins: MinutesBins): Quartiles | undefined {
  const [low, first, median, third, high] = [0.1, 0.25, 0.5, 0.75, 0.9].map((q) => quantileOf(bins, q));
  if (low === undefined || first === undefined || median === undefined || third === undefined || high === undefined) return undefined;
  return { low, first, median, third, high };
}

const WIDTH = 260;
const HEIGHT = 22;
/** Half a second to two hours: what takes longer is drawn at the end. */
const LEAST = 0.5 / 60;
const MOST = 120;

type StepTimesProps = {
  readonly steps: readonly PictureStep[];
  readonly titleOf: (step: PictureStep) => string;
  readonly shown: string | undefined;
  readonly show: (step: string) => void;
};

/** The time at each step, and where a crew could not go on or could not tell; the step that takes most in all comes first. */
export function StepTimes({ steps, titleOf, shown, show }: StepTimesProps) {
  const title = useId();
  const ordered = [...steps].sort((a, b) => b.minutesSum - a.minutesSum);
  const scale = scaleLog<number>({ domain: [LEAST, MOST], range: [2, WIDTH - 2], clamp: true });
  return (
    <section className="picture-steps" aria-labelledby={title}>
      <h2 id={title}>Time at each step</h2>
      <p className="walk-hint">
        Box: the middle half of the stays, with the median; line: from a tenth to nine tenths. The scale doubles and doubles again; ticks at 1 s, 10
        s, 1 min, 10 min, 1 h. The step that takes most time in all comes first.
      </p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what can be scrolled has to be reachable by keyboard. */}
      <section className="crew-measure-scroll" tabIndex={0} aria-label="Time at each step, as a table">
        <table className="crew-measure-table picture-table">
          <thead>
            <tr>
              <th scope="col">Step</th>
              <th scope="col">Stays</th>
              <th scope="col">In all</th>
              <th scope="col">Median</th>
              <th scope="col">Spread</th>
              <th scope="col">Could not</th>
              <th scope="col">Too close</th>
              <th scope="col">Gone on</th>
              <th scope="col">Jumped to</th>
              <th scope="col">Stepped back</th>
            </tr>
          </thead>
          <tbody>
            {ordered.map((step) => {
              const spread = quartilesOf(step.minutes);
              return (
                <tr key={`${step.tree} ${step.step}`} data-shown={shown === step.step || undefined}>
                  <th scope="row">
                    <button type="button" className="button-plain" onClick={() => show(step.step)}>
                      {titleOf(step)}
                    </button>
                  </th>
                  <td>{step.stays}</td>
                  <td>{minutesWords(step.minutesSum)}</td>
                  <td>{spread ? minutesWords(spread.median) : ''}</td>
                  <td>{spread && <SpreadDrawing spread={spread} scale={scale} />}</td>
                  {[step.couldNot, step.tooClose, step.acceptedTooClose, step.jumpedTo, step.steppedBack].map((count, at) => (
                    // biome-ignore lint/suspicious/noArrayIndexKey: columns keep their place.
                    <td key={at}>{count === 0 ? '' : <strong>{count}</strong>}</td>
                  ))}
                </tr>
              );
            })}
          </tbody>
        </table>
      </section>
    </section>
  );
}

type SpreadDrawingProps = { readonly spread: Quartiles; readonly scale: ReturnType<typeof scaleLog<number>> };

function SpreadDrawing({ spread: { low, first, median, third, high }, scale }: SpreadDrawingProps) {
  const words = `a tenth below ${minutesWords(low)}, middle half ${minutesWords(first)} to ${minutesWords(third)}, nine tenths below ${minutesWords(high)}`;
  return (
    <svg className="picture-spread" width={WIDTH} height={HEIGHT} role="img" aria-label={words}>
      {[1 / 60, 1 / 6, 1, 10, 60].map((tick) => (
        <line key={tick} className="picture-tick" x1={scale(tick)} x2={scale(tick)} y1={0} y2={HEIGHT} />
      ))}
      <BoxPlot
        horizontal
        valueScale={scale}
        top={4}
        boxWidth={14}
        min={low}
        firstQuartile={first}
        median={median}
        thirdQuartile={third}
        max={high}
        className="picture-box"
        medianProps={{ strokeWidth: 3 }}
      />
    </svg>
  );
}
