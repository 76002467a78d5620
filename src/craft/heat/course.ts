import type { Course } from './types.js';

/** The course as a function of the seconds since the phase began. */
export function courseAt(course: Course): (seconds: number) => number {
  if (typeof course === 'number') return () => course;
  if (typeof course === 'function') return course;
  const points = course;
  return (seconds) => {
    let before = points[0]!;
    if (seconds <= before.atSeconds) return before.value;
    for (let i = 1; i < points.length; i += 1) {
      const after = points[i]!;
      if (seconds <= after.atSeconds) {
        const share = (seconds - before.atSeconds) / (after.atSeconds - before.atSeconds);
        return before.value + share * (after.value - before.value);
      }
      before = after;
    }
    return before.value;
  };
}

/** Seconds since the phase began at which the course bends: steps of time end there. */
export function bendsOf(course: Course): readonly number[] {
  return typeof course === 'object' ? course.map((point) => point.atSeconds) : [];
}

/** Every value that can be known beforehand. */
export function valuesOf(course: Course): readonly number[] {
  if (typeof course === 'number') return [course];
  return typeof course === 'function' ? [] : course.map((point) => point.value);
}

/** The same course, everywhere higher by so much. */
export function raised(course: Course, by: number): Course {
  if (typeof course === 'number') return course + by;
  if (typeof course === 'function') return (seconds) => course(seconds) + by;
  return course.map((point) => ({ atSeconds: point.atSeconds, value: point.value + by }));
}
