/*
 * How high the crown must stand. A point of the outline allows the arc's centre to stand no lower than
 * f = z - ceiling(x), ceiling the height of the wall above the centre; the answer is radius + the largest f.
 * The table finds the peaks of the distance from the centre by cubics between its points: twin peaks with a shallow dip
 * between are both seen. A peak is settled with the centre kept where its own point touches the wall: there the
 * distance from the centre is smooth in the angle even close to an upright wall, and f comes out exactly.
 */
#include <math.h>

#include "model.h"

#define FIRST (HALF - REACH)
#define LAST (HALF + REACH)
#define MISSED 2e-4 /* what a cubic between two points of the table may miss of a peak, m */
#define SETTLED 1e-5 /* rad; what is left of f then is of third order in it */

/* Centre that a point at x ahead of it and z above the axle allows; infinite beside an upright wall. */
static double lowest_centre(const Tub *tub, double radius, double x, double z) {
  double side = fabs(x);
  if (side <= radius * tub->sin_end) return z - sqrt(radius * radius - side * side);
  return tub->upright ? INFINITY : z - (radius - side * tub->sin_end) / tub->cos_end;
}

static double settle(const Outline *o, const Tub *tub, double offset, double radius, double angle) {
  double end = REACH * STEP, arc = radius * tub->sin_end;
  for (int i = 0;; i++) {
    double r, dr, ddr, s = sin(angle), c = cos(angle);
    outline_at(o, angle, &r, &dr, &ddr);
    double x = r * s - offset, dx = dr * s + r * c, ddx = ddr * s + 2 * dr * c - r * s;
    double z = r * c, dz = dr * c - r * s, ddz = ddr * c - 2 * dr * s - r * c;
    double centre = lowest_centre(tub, radius, x, z);
    if (centre == INFINITY) return INFINITY;
    double first, second, fall; /* of the distance from the centre, by angle; and by raising the centre */
    if (fabs(x) <= arc) {
      double up = z - centre;
      first = (x * dx + up * dz) / radius;
      second = (dx * dx + dz * dz + x * ddx + up * ddz) / radius - first * first / radius;
      fall = up / radius;
    } else {
      double way = x < 0 ? -tub->sin_end : tub->sin_end;
      first = way * dx + tub->cos_end * dz;
      second = way * ddx + tub->cos_end * ddz;
      fall = tub->cos_end;
    }
    double change = second < 0 ? -first / second : copysign(0.25 * STEP, first);
    change = fmax(-0.5 * STEP, fmin(0.5 * STEP, change));
    change = fmax(-end, fmin(end, angle + change)) - angle;
    if (i >= 8) change *= 0.5; /* close to an upright wall it may go to and fro */
    if (fabs(change) < SETTLED || i == 40) return centre + (fall > 0 ? 0.5 * first * change / fall : 0);
    angle += change;
  }
}

/* Where, from 0 to 1, the cubic with these slopes at its ends and this difference has its peak; NaN where it has none. */
static double peak_between(double first, double last, double difference) {
  double c = 6 * difference - 3 * (first + last); /* its slope: first (1 - t) + last t + c t (1 - t) */
  if (!(first > 0 && last <= 0) && fabs(c) < 4 * fmin(fabs(first), fabs(last))) return NAN;
  double b = last - first + c, square = b * b + 4 * c * first;
  if (square < 0) return NAN;
  double t = b < 0 ? 2 * first / (sqrt(square) - b) : (b + sqrt(square)) / (2 * c);
  return t >= 0 && t <= 1 ? t : NAN;
}

/* Centre for one reserve; passes over peaks that ask for no more than `beat`. */
static double centre_needed(const Outline *o, const Tub *tub, double offset, double radius, double beat) {
  double start = -INFINITY, reach[POINTS], rise[POINTS]; /* squared distance from the centre, and its derivative by the step */
  double square = radius * radius, arc = radius * tub->sin_end;
  for (int k = FIRST; k <= LAST; k++) {
    double side = fabs(o->x[k] - offset), f;
    if (side <= arc) f = o->z[k] - sqrt(square - side * side);
    else f = lowest_centre(tub, radius, side, o->z[k]);
    if (f > start) start = f;
  }
  if (start == INFINITY) return start;
  for (int k = FIRST; k <= LAST; k++) {
    double x = o->x[k] - offset, side = fabs(x), up = o->z[k] - start;
    if (tub->upright) up = fmax(0, up);
    if (tub->upright || side * tub->cos_end <= up * tub->sin_end) {
      reach[k] = side * side + up * up;
      rise[k] = 2 * STEP * (x * o->dx[k] + up * o->dz[k]);
    } else {
      double leg = side * tub->sin_end + up * tub->cos_end, way = x < 0 ? -tub->sin_end : tub->sin_end;
      reach[k] = leg * leg;
      rise[k] = 2 * STEP * leg * (way * o->dx[k] + tub->cos_end * o->dz[k]);
    }
  }
  double needed = start, near = (radius - MISSED) * (radius - MISSED);
  for (int k = FIRST; k < LAST; k++) {
    double t = peak_between(rise[k], rise[k + 1], reach[k + 1] - reach[k]);
    if (k == FIRST && rise[k] < 0 && !(t >= 0)) t = 0;
    if (k == LAST - 1 && rise[k + 1] > 0) t = 1;
    if (!(t >= 0)) continue;
    double s = 1 - t;
    double peak = s * s * ((1 + 2 * t) * reach[k] + t * rise[k]) + t * t * ((1 + 2 * s) * reach[k + 1] - s * rise[k + 1]);
    if (peak < near) continue;
    double fall = (fmin(o->z[k], o->z[k + 1]) - start) / radius; /* at most halves on the way up to the peak */
    if (fall > 0.5 && start + 2 * (0.5 * (peak / radius - radius) + MISSED) / fall <= beat) continue;
    double centre = settle(o, tub, offset, radius, (k + t - HALF) * STEP);
    if (!(centre <= needed)) needed = centre;
  }
  return needed;
}

Height required_height(const Outline *o, const Tub *tub, double offset, double reserve, Height beat) {
  /* Without the reserve every point allows the centre to stand lower by the reserve at least. */
  double enough = fmin(beat.required, beat.contact + reserve) - tub->radius;
  Height height;
  height.required = tub->radius + centre_needed(o, tub, offset, tub->radius - reserve, enough);
  height.contact = height.required;
  if (reserve > 0) {
    height.contact = -INFINITY;
    if (!(height.required - reserve <= beat.contact))
      height.contact = tub->radius + centre_needed(o, tub, offset, tub->radius, beat.contact - tub->radius);
  }
  return height;
}

/* What a round tyre of that radius would need: no less than any outline within it. */
double round_bound(double largest, const Tub *tub, double offset, double reserve) {
  double room = tub->radius - largest - reserve, square = room * room - offset * offset;
  return room > 0 && square > 0 ? tub->radius - sqrt(square) : INFINITY;
}

/* Gap to the upright walls from 60 degrees on, above `floor`; a parabola through the table. */
double leg_gap(const Outline *o, const Tub *tub, double offset, double floor) {
  double reach = -INFINITY;
  for (int way = -1; way <= 1; way += 2) {
    for (int j = 6; j <= HALF; j++) {
      int k = HALF + way * j;
      if (o->z[k] < floor) continue;
      double here = way * (o->x[k] - offset);
      if (here <= reach) continue;
      reach = here;
      if (j == HALF) continue;
      double before = way * (o->x[k - way] - offset), after = way * (o->x[k + way] - offset);
      double bend = before - 2 * here + after;
      if (before <= here && after <= here && bend < 0) reach -= (after - before) * (after - before) / (8 * bend);
    }
  }
  return tub->radius - reach;
}
