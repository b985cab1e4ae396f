/* The tyre: its air, its growth, the band under load and thrust, and the outline that they give. */
#include <math.h>

#include "model.h"

#define PI 3.14159265358979323846
#define LOBE_WIDTH (40 * PI / 180)
#define TENSIONED 0.8 /* share of the section width on which the air tensions the band */

static double growth_parameter(const double *tyre, int bias, double pressure, double radius) {
  double p = pressure + tyre[GROWTH_CARCASS];
  if (!bias) return tyre[GROWTH_SCALE] * (32 * 6894.757293168361 + tyre[GROWTH_CARCASS]) / p;
  double per_length = 0.57 * tyre[TYRE_MASS] / (2 * PI * radius);
  return tyre[GROWTH_SPEED_FACTOR] * 0.77 * sqrt(p * tyre[SECTION_WIDTH] * radius / per_length);
}

static double free_radius(const double *tyre, const Tyre *facts, double pressure) {
  return tyre[REFERENCE_RADIUS] + tyre[RADIUS_PER_PRESSURE] * (pressure - facts->reference_pressure);
}

void inflate(const double *tyre, const Tyre *facts, double temperature, double station, Inflated *air) {
  air->pressure[0] = tyre[COLD_PRESSURE];
  air->pressure[1] = (tyre[COLD_PRESSURE] + station) * (temperature + tyre[AIR_HEATING]) /
                         (temperature * tyre[VOLUME_RATIO]) -
                     station;
  for (int hot = 0; hot < 2; hot++) {
    air->radius[hot] = free_radius(tyre, facts, air->pressure[hot]);
    air->growth[hot] = growth_parameter(tyre, facts->bias, air->pressure[hot], air->radius[hot]);
  }
  air->scale = tyre[GROWTH_SCALE] * tyre[REFERENCE_RADIUS];
  air->radial = facts->radial_stiffness * tyre[STIFFNESS_FACTOR];
  air->tangential = air->radial * tyre[TANGENTIAL_RATIO];
}

double patch_half_angle(double load, double pressure, double carcass, double width, double radius) {
  return fmin(0.6, load / (2 * (pressure + carcass) * width * radius));
}

/* 3(sin x - x cos x)/x^3 */
static double patch_weight(double x) {
  double y = x * x;
  if (x < 0.1) return 1 - y / 10 + y * y / 280 - y * y * y / 15120;
  return 3 * (sin(x) - x * cos(x)) / (x * y);
}

/* Free radius less drop; the sum over harmonics of f_n^2/K_n ends at 96, as the model's own does. */
double static_loaded_radius(const double *car, const double *tyre, const Tyre *facts, double pressure) {
  double load = 0.5 * (car[MASS] * car[REAR_SHARE] - car[ADDED_MASS]) * GRAVITY;
  double R = free_radius(tyre, facts, pressure);
  double patch = patch_half_angle(load, pressure, tyre[PATCH_CARCASS], tyre[TREAD_WIDTH], R);
  double kw = facts->radial_stiffness * tyre[STIFFNESS_FACTOR], kv = kw * tyre[TANGENTIAL_RATIO];
  double tension = pressure * TENSIONED * tyre[SECTION_WIDTH] / R;
  double sum = 0;
  for (int n = 96; n >= 1; n--) {
    double f = patch_weight(n * patch);
    sum += f * f / (PI * R * (tension * (n * n - 1) + kw + kv / (n * n)));
  }
  return R - load * sum - R * patch * patch / 10;
}

/* Lobe on the table's angles, and its derivative. */
void fill_lobe(double lobe[2][POINTS], double height, double angle) {
  double rate = PI / LOBE_WIDTH;
  for (int k = 0; k < POINTS; k++) {
    double away = (k - HALF) * STEP - angle;
    int on = fabs(away) < LOBE_WIDTH;
    lobe[0][k] = on ? height * 0.5 * (1 + cos(rate * away)) : 0;
    lobe[1][k] = on ? -height * 0.5 * rate * sin(rate * away) : 0;
  }
}

/* The table by powers of one step of the exponentials; good enough to find where to look. */
static void fill_table(Outline *o, const double lobe[2][POINTS]) {
  double *r = o->r + HALF, *dr = o->dr + HALF, p = o->p, q = o->q;
  if (o->kind == REAL_ROOTS) {
    double sp = exp(p * STEP), sq = exp(q * STEP), tp = 1 / sp, tq = 1 / sq, ep = 1, eq = 1, fp = 1, fq = 1;
    for (int k = 0; k <= HALF; k++) {
      r[k] = o->a * ep + o->b * fp + o->c * eq + o->d * fq;
      r[-k] = o->a * fp + o->b * ep + o->c * fq + o->d * eq;
      dr[k] = p * (o->a * ep - o->b * fp) + q * (o->c * eq - o->d * fq);
      dr[-k] = p * (o->a * fp - o->b * ep) + q * (o->c * fq - o->d * eq);
      ep *= sp, eq *= sq, fp *= tp, fq *= tq;
    }
  } else if (o->kind == CONJUGATE_ROOTS) {
    double s = exp(p * STEP), t = 1 / s, c1 = cos(q * STEP), s1 = sin(q * STEP), e = 1, f = 1, c = 1, n = 0;
    for (int k = 0; k <= HALF; k++) {
      double ure = e * (o->a * c - o->b * n), uim = e * (o->a * n + o->b * c);
      double dre = f * (o->c * c + o->d * n), dim = f * (o->d * c - o->c * n);
      r[k] = uim + dim;
      dr[k] = p * (uim - dim) + q * (ure - dre);
      ure = f * (o->a * c + o->b * n), uim = f * (o->b * c - o->a * n);
      dre = e * (o->c * c - o->d * n), dim = e * (o->d * c + o->c * n);
      r[-k] = uim + dim;
      dr[-k] = p * (uim - dim) + q * (ure - dre);
      double next = c * c1 - n * s1;
      n = n * c1 + c * s1, c = next, e *= s, f *= t;
    }
  } else {
    for (int k = -HALF; k <= HALF; k++) {
      double cp = cos(p * k * STEP), sp = sin(p * k * STEP), cq = cos(q * k * STEP), sq = sin(q * k * STEP);
      r[k] = o->a * cp + o->b * sp + o->c * cq + o->d * sq;
      dr[k] = p * (o->b * cp - o->a * sp) + q * (o->d * cq - o->c * sq);
    }
  }
  static double sine[POINTS], cosine[POINTS];
  if (cosine[HALF] == 0)
    for (int k = 0; k < POINTS; k++) sine[k] = sin((k - HALF) * STEP), cosine[k] = cos((k - HALF) * STEP);
  for (int k = 0; k < POINTS; k++) {
    o->r[k] += o->base + lobe[0][k];
    o->dr[k] += lobe[1][k];
    o->x[k] = o->r[k] * sine[k], o->z[k] = o->r[k] * cosine[k];
    o->dx[k] = o->dr[k] * sine[k] + o->z[k], o->dz[k] = o->dr[k] * cosine[k] - o->x[k];
  }
}

void shape_tyre(const double *tyre, const Tyre *facts, const Inflated *air, const Moment *moment, double growth_factor,
                const double lobe[2][POINTS], Outline *o) {
  int hot = moment->moving;
  double pressure = air->pressure[hot], radius = air->radius[hot], growth;
  if (facts->bias) {
    double ratio = moment->tread_speed / air->growth[hot];
    growth = air->scale * log1p(ratio * ratio);
  } else {
    double ratio = moment->tread_speed / 50;
    growth = air->growth[hot] * radius * ratio * ratio;
  }
  double grown = radius + growth_factor * growth;
  double patch = patch_half_angle(moment->load, pressure, tyre[PATCH_CARCASS], tyre[TREAD_WIDTH], grown);
  fill_band(o, grown, air->radial, air->tangential, pressure * TENSIONED * tyre[SECTION_WIDTH] / grown, moment->load,
            moment->thrust, patch);
  o->base = grown + tyre[RUN_OUT];
  o->lobe_height = tyre[LOBE_HEIGHT];
  o->lobe_angle = tyre[LOBE_ANGLE];
  fill_table(o, lobe);
}

void outline_at(const Outline *o, double angle, double *r, double *slope, double *bend) {
  double p = o->p, q = o->q;
  if (o->kind == REAL_ROOTS) {
    double ep = exp(p * angle), eq = exp(q * angle);
    double a = o->a * ep, b = o->b / ep, c = o->c * eq, d = o->d / eq;
    *r = a + b + c + d;
    *slope = p * (a - b) + q * (c - d);
    *bend = p * p * (a + b) + q * q * (c + d);
  } else if (o->kind == CONJUGATE_ROOTS) {
    /* Imaginary part of A e^{bt} + B e^{-bt}, b = p + iq; a derivative multiplies by b and turns the second's sign. */
    double e = exp(p * angle), c = cos(q * angle), s = sin(q * angle);
    double ure = e * (o->a * c - o->b * s), uim = e * (o->a * s + o->b * c);
    double dre = (o->c * c + o->d * s) / e, dim = (o->d * c - o->c * s) / e;
    *r = uim + dim;
    *slope = p * (uim - dim) + q * (ure - dre);
    *bend = (p * p - q * q) * (uim + dim) + 2 * p * q * (ure + dre);
  } else {
    double cp = cos(p * angle), sp = sin(p * angle), cq = cos(q * angle), sq = sin(q * angle);
    *r = o->a * cp + o->b * sp + o->c * cq + o->d * sq;
    *slope = p * (o->b * cp - o->a * sp) + q * (o->d * cq - o->c * sq);
    *bend = -p * p * (o->a * cp + o->b * sp) - q * q * (o->c * cq + o->d * sq);
  }
  *r += o->base;
  double away = angle - o->lobe_angle;
  if (fabs(away) < LOBE_WIDTH) {
    double rate = PI / LOBE_WIDTH, half = 0.5 * o->lobe_height, c = cos(rate * away);
    *r += half * (1 + c);
    *slope -= half * rate * sin(rate * away);
    *bend -= half * rate * rate * c;
  }
}

/* Not below the largest radius between two table points: parabolas through the table, and 0.2 mm for what they miss. */
double largest_radius(const Outline *o, int first, int last) {
  double largest = 0, bend = 0;
  for (int k = first; k <= last; k++) {
    if (o->r[k] > largest) largest = o->r[k];
    if (k > first && k < last) {
      double here = fabs(o->r[k - 1] - 2 * o->r[k] + o->r[k + 1]);
      if (here > bend) bend = here;
    }
  }
  return largest + 0.5 * bend + 2e-4;
}
