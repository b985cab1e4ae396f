/*
 * How high the crown must stand. A point of the outline allows the arc's centre to stand no lower than
 * f = z - ceiling(x), ceiling the height of the wall above the centre; the answer is radius + the largest f.
 * The table finds the peaks of the distance from the centre by cubics between its points: twin peaks with a shallow dip
 * between are both seen. A peak is settled with the centre kept where its own point touches the wall: there the
 * distance from the centre is smooth in the angle even close to an upright wall, and f comes out exactly.
 */
#include <math.h>

#include "model.h"

#define MISSED 2e-4 /* what a cubic between two points of the table may miss of a peak, m */
#define SETTLED 1e-5 /* rad; what is left of f then is of third order in it */

/* How far beside the arc's centre a point may lie to have arc or leg above it; beyond, the leg's end decides. */
static double leg_side(const Tub *tub, double radius) {
  return tub->upright ? radius : tub->end_side - (tub->radius - radius) * tub->sin_end;
}

/* Centre that a point at x ahead of it and z above the axle allows under arc and legs; none beyond them. */
static double lowest_centre(const Tub *tub, double radius, double x, double z) {
  double side = fabs(x);
  if (side <= radius * tub->sin_end) return z - sqrt(radius * radius - side * side);
  return tub->upright ? -INFINITY : z - (radius - side * tub->sin_end) / tub->cos_end;
}

static double settle(const Outline *o, const Tub *tub, double offset, double radius, int half, double angle) {
  double end = half * STEP, arc = radius * tub->sin_end;
  for (int i = 0;; i++) {
    double r, dr, ddr, s = sin(angle), c = cos(angle);
    outline_at(o, angle, &r, &dr, &ddr);
    double x = r * s - offset, dx = dr * s + r * c, ddx = ddr * s + 2 * dr * c - r * s;
    double z = r * c, dz = dr * c - r * s, ddz = ddr * c - 2 * dr * s - r * c;
    double centre = lowest_centre(tub, radius, x, z);
    if (centre == -INFINITY) return centre;
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
    if (fabs(change) < SETTLED || i == 40)
      return fabs(x) > leg_side(tub, radius) ? -INFINITY : centre + (fall > 0 ? 0.5 * first * change / fall : 0);
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

/* Centre that the peaks ask for, from one that every point of the table allows. */
static double peaks_needed(const Outline *o, const Tub *tub, double offset, double radius, double beat, double start,
                           int half) {
  double reach[POINTS], rise[POINTS]; /* squared distance from the centre, and its derivative by the step */
  int first = HALF - half, last = HALF + half;
  for (int k = first; k <= last; k++) {
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
  for (int k = first; k < last; k++) {
    double t = peak_between(rise[k], rise[k + 1], reach[k + 1] - reach[k]);
    if (k == first && rise[k] < 0 && !(t >= 0)) t = 0;
    if (k == last - 1 && rise[k + 1] > 0) t = 1;
    if (!(t >= 0)) continue;
    double s = 1 - t;
    double peak = s * s * ((1 + 2 * t) * reach[k] + t * rise[k]) + t * t * ((1 + 2 * s) * reach[k + 1] - s * rise[k + 1]);
    if (peak < near) continue;
    double fall = (fmin(o->z[k], o->z[k + 1]) - start) / radius; /* at most halves on the way up to the peak */
    if (fall > 0.5 && start + 2 * (0.5 * (peak / radius - radius) + MISSED) / fall <= beat) continue;
    double centre = settle(o, tub, offset, radius, half, (k + t - HALF) * STEP);
    if (!(centre <= needed)) needed = centre;
  }
  return needed;
}

/* The curve that runs a reserve outside the outline, `out` outward on the side `way`: how far it reaches there. */
static double curve_reach(const Outline *o, double reserve, int way, double out, double *height, double *slope) {
  double r, dr, ddr, s = sin(way * out), c = cos(way * out);
  outline_at(o, way * out, &r, &dr, &ddr);
  double dx = dr * s + r * c, dz = dr * c - r * s, speed = sqrt(dx * dx + dz * dz);
  *height = r * c + reserve * dx / speed;
  *slope = dx;
  return way * (r * s - reserve * dz / speed);
}

/* How high the end of a leg must stand: where the curve first meets its upright line, by steps of 1 degree and halving. */
static double end_height(const Outline *o, double reserve, int way, double target) {
  double height, slope, before, low = 0;
  if (curve_reach(o, reserve, way, 0, &height, &before) >= target) {
    low = -9 * STEP;
    if (curve_reach(o, reserve, way, low, &height, &before) >= target) return INFINITY;
  }
  while (low < HALF * STEP - 1e-9) {
    double high = low + STEP / 10, reach = curve_reach(o, reserve, way, high, &height, &slope);
    double next = high;
    if (reach < target && before > 0 && slope <= 0) { /* the widest place lies between */
      double left = low;
      for (int i = 0; i < 60; i++) {
        double middle = 0.5 * (left + high);
        reach = curve_reach(o, reserve, way, middle, &height, &slope);
        if (slope > 0) left = middle;
        else high = middle;
      }
      reach = curve_reach(o, reserve, way, high, &height, &slope);
      slope = -1;
    }
    if (reach >= target) {
      for (int i = 0; i < 60; i++) {
        double middle = 0.5 * (low + high);
        if (curve_reach(o, reserve, way, middle, &height, &slope) < target) low = middle;
        else high = middle;
      }
      curve_reach(o, reserve, way, high, &height, &slope);
      return height;
    }
    low = next;
    before = slope;
  }
  return -INFINITY;
}

/* Centre for the ends of both legs, no less than `needed`; passes over an end that asks for no more than `beat`. */
static double ends_needed(const Outline *o, const Tub *tub, double offset, double radius, double beat, double needed) {
  double reserve = tub->radius - radius, round = largest_radius(o, 0, POINTS - 1) + reserve;
  for (int way = -1; way <= 1; way += 2) {
    double ahead = offset + way * tub->end_side, over = round * round - ahead * ahead;
    if (way * ahead > 0 && (over <= 0 || sqrt(over) + tub->end_below <= fmax(needed, beat))) continue;
    double centre = end_height(o, reserve, way, way * ahead) + tub->end_below;
    if (!(centre <= needed)) needed = centre;
  }
  return needed;
}

/* Centre for one reserve; passes over peaks that ask for no more than `beat`. */
static double centre_needed(const Outline *o, const Tub *tub, double offset, double radius, double beat) {
  double start = -INFINITY;
  double square = radius * radius, arc = radius * tub->sin_end, last_side = leg_side(tub, radius);
  int half = tub->upright ? REACH : HALF, first = HALF - half, last = HALF + half;
  for (int k = first; k <= last; k++) {
    double side = fabs(o->x[k] - offset), f;
    if (side > last_side) continue;
    if (side <= arc) f = o->z[k] - sqrt(square - side * side);
    else f = lowest_centre(tub, radius, side, o->z[k]);
    if (f > start) start = f;
  }
  if (start > -INFINITY) start = peaks_needed(o, tub, offset, radius, beat, start, half);
  return ends_needed(o, tub, offset, radius, beat, start);
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

/* What a round tyre of that radius would need: no less than any outline within it that nowhere comes near a leg. */
double round_bound(double largest, double widest, const Tub *tub, double offset, double reserve) {
  double room = tub->radius - largest - reserve, square = room * room - offset * offset;
  if (!(room > 0 && square > 0)) return INFINITY;
  double below = sqrt(square), side = (widest + fabs(offset)) * tub->sin_end + below * tub->cos_end;
  return side <= tub->radius - reserve ? tub->radius - below : INFINITY;
}
