import type { Ladder, PressWindowFacts, WindowCourses } from '#contract';
import { useLadderCourses } from '../../api/index.js';
import { LineChart } from '../../charts/index.js';
import { ProblemNote, usePreferences, Working } from '../../frame/index.js';
import { signed, temperatureText } from '../../words/index.js';
import styles from './window.module.css';

/** What opens and closes the window; the rest is followed beside it. */
const bounds = /^(density\.|blackHue|edge)/;

/** Density, hue and edges over time, with the band that holds nine of ten likely worlds. */
export function Courses({ ladder }: { readonly ladder: Ladder }) {
  const courses = useLadderCourses(ladder);
  const { temperatureUnit } = usePreferences();
  const { window } = ladder;
  if (!window) return null;
  const all = courses.data ?? [];
  const bounding = all.filter(({ id }) => bounds.test(id));
  const others = all.filter(({ id }) => !bounds.test(id));
  return (
    <section aria-labelledby="courses-title" className={styles.section}>
      <h2 id="courses-title">What it rests on</h2>
      <p className="soft">
        Each value over time at {temperatureText(window.recipe.platenC, temperatureUnit)}: the line is its
        middle course, the band holds nine of ten likely worlds, the dots are your coupons, carried to this
        temperature. Between the upright lines all is well.
      </p>
      {courses.error && <ProblemNote error={courses.error} onAgain={() => void courses.refetch()} />}
      {courses.isLoading && <Working step="Drawing the curves" share={null} />}
      <div className={styles.courses}>
        {bounding.map((course) => (
          <Course key={course.id} course={course} window={window} />
        ))}
      </div>
      {others.length > 0 && (
        <details className={styles.more}>
          <summary>What else was followed</summary>
          <div className={styles.courses}>
            {others.map((course) => (
              <Course key={course.id} course={course} window={window} />
            ))}
          </div>
        </details>
      )}
    </section>
  );
}

const unitOf = (course: WindowCourses[number]): string =>
  course.unit ||
  (course.id.startsWith('density') ? 'over the bare ground' : course.id === 'smallText' ? 'share read' : ' ');

function Course({
  course,
  window,
}: {
  readonly course: WindowCourses[number];
  readonly window: PressWindowFacts;
}) {
  const all = [...course.low, ...course.high, ...course.coupons.map(({ value }) => value)].filter(
    Number.isFinite,
  );
  const [low, high] = [Math.min(...all), Math.max(...all)];
  const room = 0.08 * (high - low || 1);
  const times = [...course.dwellSeconds, ...course.coupons.map((one) => one.dwellSeconds)];
  const [shortest, longest] = [Math.min(...times), Math.max(...times)];
  const along = course.dwellSeconds;
  return (
    <figure className={styles.course}>
      <h3>{course.name}</h3>
      <LineChart
        label={`${course.name} over time. ${course.coupons
          .map((one) => `Coupon ${one.number}: ${signed(one.value, 2)} ${course.unit}`)
          .join('. ')}.`}
        x={{ min: shortest, max: longest, label: 'Time (s)' }}
        y={{ min: low - room, max: high + room, label: unitOf(course) }}
        lines={[{ name: '', points: along.map((s, i) => [s, course.median[i] ?? 0]) }]}
        bands={[{ points: along.map((s, i) => [s, course.low[i] ?? 0, course.high[i] ?? 0]) }]}
        heightPixels={210}
        over={(place) => (
          <>
            {[window.fromSeconds.value, window.toSeconds.value]
              .filter((s) => s >= shortest && s <= longest)
              .map((s) => (
                <line
                  key={s}
                  x1={place(s, 0)[0]}
                  x2={place(s, 0)[0]}
                  y1={place(s, high + room)[1]}
                  y2={place(s, low - room)[1]}
                  className={styles.edge}
                />
              ))}
            {course.coupons.map((one) => {
              const [cx, cy] = place(one.dwellSeconds, one.value);
              return <circle key={one.number} cx={cx} cy={cy} r={4.5} className={styles.dot} />;
            })}
          </>
        )}
      />
    </figure>
  );
}
