/** A curve column, as high as the pictures. */
import { AxisCurve } from '../../charts/axis_curve';
import { fixed } from '../../charts/format';
import { ofZone, type Quantity, type Series } from '../../charts/series';
import { THIRDS } from '../../engine/types';
import { words } from '../../words';
import { useSize } from '../use_size';

/** The same in words, for those who cannot see the curve. */
function inWords(series: readonly Series[], quantity: Quantity): string {
  const t = words.sheet;
  const list = series.map((s) => {
    const [c, m, i] = THIRDS.map((zone) => (s.zones[zone] ? fixed(ofZone(quantity, s.zones[zone])) : '–'));
    return t.curveItem(s.name, c!, m!, i!);
  });
  return t.curve(t[quantity], list.join(' '));
}

export function Curves({ series, quantity }: { series: readonly Series[]; quantity: Quantity }) {
  const { ref, width, height } = useSize<HTMLDivElement>();
  return (
    <div class={`curves ${quantity}`} ref={ref}>
      {width > 0 && <AxisCurve series={series} quantity={quantity} width={width} height={height} label={inWords(series, quantity)} />}
    </div>
  );
}
