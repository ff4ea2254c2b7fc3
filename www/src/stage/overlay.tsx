/** Outlines over the photo: thin and neutral, so that the colour under them can be judged. */
import type { Region } from '../engine/types';
import { scene } from '../state/desk';
import { regionById, regionIdOf, boundsOf, shapeOf, shapesOf, type Shape } from '../state/shapes';
import { outlinesHidden, selected, stageSize, tool, view } from '../state/ui';
import { words } from '../words';
import { pathOf, stageFromPhoto } from './geometry';
import { clearOfEachOther } from './name_places';
import { PointHandles } from './point_handles';
import { AxisHandles, axisOnStage, MoveHandle } from './shape_handles';
import { draggedBox } from './taps';
import { cross } from './keys';

/** Half the length of a tick. */
const TICK_PX = 7;

function Outline({ shape }: { shape: Shape }) {
  const d = pathOf(view.value, shape.outline);
  return (
    <g class={shape.key === selected.value ? 'outline chosen' : 'outline'} data-shape={shape.key}>
      <path class="casing" d={d} />
      <path class="line" d={d} />
    </g>
  );
}

/** A name under each outline that is not selected (the bar below names that one). */
function Names() {
  const names = shapesOf(scene.value)
    .filter((shape) => shape.key !== selected.value)
    .map((shape) => {
      const { left, right, bottom } = boundsOf(shape.outline);
      const [x, y] = stageFromPhoto(view.value, [(left + right) / 2, bottom]);
      return { key: shape.key, text: words.names.short(scene.value, shape.key), x, y: y + 17 };
    });
  return (
    <>
      {clearOfEachOther(names).map(({ key, text, x, y }) => (
        <text key={key} class="name" x={x} y={y}>
          {text}
        </text>
      ))}
    </>
  );
}

/** The borders of the thirds as ticks; on the selected region with the axis itself. */
function Axis({ region, chosen }: { region: Region; chosen: boolean }) {
  const axis = axisOnStage(region);
  if (!axis) return null;
  const { from, to } = axis;
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const length = Math.hypot(dx, dy) || 1;
  const [nx, ny] = [(-dy / length) * TICK_PX, (dx / length) * TICK_PX];
  const ticks = [0, 1 / 3, 2 / 3, 1].map((t) => {
    const [x, y] = [from[0] + t * dx, from[1] + t * dy];
    return `M${x - nx} ${y - ny}L${x + nx} ${y + ny}`;
  });
  const d = (chosen ? `M${from[0]} ${from[1]}L${to[0]} ${to[1]}` : '') + ticks.join('');
  return (
    <g class="axis">
      <path class="casing" d={d} />
      <path class="line" d={d} />
    </g>
  );
}

export function Overlay() {
  const { width, height } = stageSize.value;
  const shape = shapeOf(scene.value, selected.value);
  const region = regionById(scene.value, regionIdOf(selected.value));
  const what = shape ? words.names.shape(scene.value, shape.key) : '';
  const box = draggedBox.value;
  const at = cross.value;
  return (
    <svg class={outlinesHidden.value ? 'overlay hidden' : 'overlay'} width={width} height={height} viewBox={`0 0 ${width} ${height}`}>
      {shapesOf(scene.value).map((s) => (
        <Outline key={s.key} shape={s} />
      ))}
      <Names />
      {scene.value.regions.map((r) => (
        <Axis key={r.id} region={r} chosen={r === region} />
      ))}
      {shape && (
        <g key={shape.key}>
          <MoveHandle shape={shape} what={what} />
          <PointHandles shape={shape} what={what} />
          {region && <AxisHandles region={region} what={what} />}
        </g>
      )}
      {box && <rect class="box" {...box} />}
      {at && tool.value !== 'look' && (
        <g>
          <path class="cross" d={`M${at[0] - 16} ${at[1]}h32M${at[0]} ${at[1] - 16}v32`} />
          <text x={width / 2} y={22}>
            {words.stage.crossHelp}
          </text>
        </g>
      )}
    </svg>
  );
}
