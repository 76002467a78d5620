import { Checkbox } from '@mantine/core';
import { useState } from 'react';
import type { Ladder } from '#contract';
import { towardsBrown } from '#craft/presswindow';
import { useNoteCoupons } from '../../api/index.js';
import { ProblemNote, Told, usePreferences } from '../../frame/index.js';
import { signed } from '../../words/index.js';
import { CouponMark } from '../coupon-mark.js';
import { couponVerdict, verdictWords } from '../coupon-verdict.js';
import type { LadderCoupon } from '../ladder-state.js';
import { pressedStep, stepText } from '../words.js';
import styles from './coupons.module.css';
import { ReallySet } from './really-set.js';

/** Every coupon with what was set and what was read; put right or left out here. */
export function CouponTable({ ladder }: { readonly ladder: Ladder }) {
  const noting = useNoteCoupons(ladder.sheetId);
  const [changing, setChanging] = useState<number | null>(null);
  const read = ladder.coupons.some((coupon) => coupon.values !== null);
  const judged = ladder.coupons.some((coupon) => coupon.byEye !== null);
  return (
    <section aria-labelledby="coupons-title" className={styles.section}>
      <h2 id="coupons-title">The coupons</h2>
      {noting.error && <ProblemNote error={noting.error} />}
      <div className={styles.box}>
        <table className={styles.table}>
          <caption className="said-only">What was set and read for each coupon</caption>
          <thead>
            <tr>
              <th scope="col">No.</th>
              <th scope="col">Set on the press</th>
              <th scope="col">It was</th>
              {read && (
                <>
                  <th scope="col">Density of black</th>
                  <th scope="col">
                    Hue of black<span>− green, + brown</span>
                  </th>
                  <th scope="col">
                    Edges<span>µm, 10 to 90 %</span>
                  </th>
                </>
              )}
              {judged && <th scope="col">By eye</th>}
              <th scope="col">Leave out</th>
              <th scope="col">
                <span className="said-only">Put right</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {ladder.coupons.map((coupon) => (
              <Row
                key={coupon.number}
                {...{ ladder, coupon, read, judged }}
                isChanging={changing === coupon.number}
                onChange={() => setChanging(changing === coupon.number ? null : coupon.number)}
                onLeaveOut={(leftOut) => noting.mutate({ coupons: [{ number: coupon.number, leftOut }] })}
                onPressed={(pressed) => {
                  noting.mutate({ coupons: [{ number: coupon.number, pressed }] });
                  setChanging(null);
                }}
              />
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

function Row(props: {
  readonly ladder: Ladder;
  readonly coupon: LadderCoupon;
  readonly read: boolean;
  readonly judged: boolean;
  readonly isChanging: boolean;
  onChange(): void;
  onLeaveOut(leftOut: boolean): void;
  onPressed(pressed: LadderCoupon['pressed']): void;
}) {
  const { ladder, coupon, read, judged, isChanging } = props;
  const { temperatureUnit } = usePreferences();
  const verdict = couponVerdict(coupon, ladder.window);
  const step = pressedStep(coupon);
  const setC = step.platenC - (ladder.plan.offsetK ?? 0);
  const { values } = coupon;
  const lab = values?.blackLab;
  const columns = 5 + (read ? 3 : 0) + (judged ? 1 : 0);
  return (
    <>
      <tr data-left-out={coupon.leftOut || undefined}>
        <th scope="row">{coupon.number}</th>
        <td data-name="Set on the press" className={styles.wide}>
          {stepText(step, setC, temperatureUnit)}
          {coupon.pressed && (
            <span className="soft">planned {stepText(coupon.step, coupon.setC, temperatureUnit)}</span>
          )}
          {coupon.remarks.map((remark) => (
            <span key={remark} className={styles.remark}>
              <Told text={remark} />
            </span>
          ))}
        </td>
        <td data-name="It was">
          <span className={styles.mark}>
            <svg width={26} height={26} viewBox="-13 -13 26 26" aria-hidden="true">
              <rect x={-13} y={-13} width={26} height={26} rx={4} fill="#8c8c8c" />
              <CouponMark
                black={coupon.seenHex[0] ?? null}
                leftOut={coupon.leftOut}
                verdict={verdict}
                x={0}
                y={0}
                side={20}
              />
            </svg>
            {verdict ? verdictWords[verdict] : 'not read'}
          </span>
        </td>
        {read && (
          <>
            <td data-name="Density of black" data-empty={values === null || undefined}>
              {measured(values?.density?.black, 2)}
            </td>
            <td data-name="Hue of black" data-empty={values === null || undefined}>
              {lab ? signed(towardsBrown(lab.lab), 1) : '–'}
            </td>
            <td data-name="Edges, µm" data-empty={values === null || undefined}>
              {measured(values?.edgeUm, 0)}
            </td>
          </>
        )}
        {judged && (
          <td data-name="By eye" data-empty={coupon.byEye === null || undefined}>
            {[coupon.byEye?.black, coupon.byEye?.edges].filter(Boolean).join(', ') || '–'}
          </td>
        )}
        <td data-name="Leave out">
          <Checkbox
            size="md"
            aria-label={`Leave coupon ${coupon.number} out`}
            checked={coupon.leftOut}
            onChange={(event) => props.onLeaveOut(event.currentTarget.checked)}
          />
        </td>
        <td>
          <button
            type="button"
            className="link-button"
            aria-expanded={isChanging}
            aria-label={`Put right what was set for coupon ${coupon.number}`}
            onClick={props.onChange}
          >
            {isChanging ? 'Leave it' : 'Put right'}
          </button>
        </td>
      </tr>
      {isChanging && (
        <tr>
          <td colSpan={columns}>
            <ReallySet coupon={coupon} offsetK={ladder.plan.offsetK ?? 0} onKeep={props.onPressed} />
          </td>
        </tr>
      )}
    </>
  );
}

const measured = (one: { readonly value: number; readonly sd: number } | undefined, decimals: number) =>
  one ? `${one.value.toFixed(decimals)} ± ${(1.645 * one.sd).toFixed(decimals)}` : '–';
