/* All runs of a draws file against all tubs. */
#include <math.h>

#include "model.h"

void evaluate(const Setup *setup, const double *draws, double *required, double *contact) {
  int runs = setup->runs, columns = CAR_INPUTS + TYRE_INPUTS + (setup->axle_is_measured ? 0 : TYRE_INPUTS);
  double draw[CAR_INPUTS + 2 * TYRE_INPUTS], lobe[2][POINTS];
  const double *car = draw, *tyre = draw + CAR_INPUTS, *build = tyre + TYRE_INPUTS;
  Moment moment[MOMENTS];
  Inflated air;
  Outline outlines[MOMENTS];
  double drops[MOMENTS], largests[MOMENTS], tops[MOMENTS];
  int order[MOMENTS];
  for (int run = 0; run < runs; run++) {
    for (int c = 0; c < columns; c++) draw[c] = draws[(long)c * runs + run];
    double axle = setup->axle_is_measured ? setup->axle_height
                                          : static_loaded_radius(car, build, &setup->build, setup->build_pressure);
    fill_moments(car, setup, moment);
    inflate(tyre, &setup->tyre, car[AIR_TEMPERATURE], car[STATION_PRESSURE], &air);
    fill_lobe(lobe, tyre[LOBE_HEIGHT], tyre[LOBE_ANGLE]);
    for (int t = 0; t < setup->tubs; t++) required[t * runs + run] = contact[t * runs + run] = -INFINITY;
    int happening = 0; /* the likely tightest first, so that a bound can pass over the rest */
    for (int i = 0; i < MOMENTS; i++) {
      const Moment *m = &moment[i];
      if (!m->happens) continue;
      Outline *o = &outlines[i];
      shape_tyre(tyre, &setup->tyre, &air, m, setup->growth_factor, lobe, o);
      drops[i] = body_drop(car, tyre[RIDE_CHANGE], m->spring, m->moving);
      largests[i] = largest_radius(o, HALF - REACH, HALF + REACH);
      tops[i] = drops[i] + largests[i];
      int place = happening++;
      for (; place > 0 && tops[order[place - 1]] < tops[i]; place--) order[place] = order[place - 1];
      order[place] = i;
    }
    for (int i = 0; i < happening; i++) {
      const Moment *m = &moment[order[i]];
      const Outline *o = &outlines[order[i]];
      double drop = drops[order[i]], largest = largests[order[i]];
      double forward = car[PATH_SLOPE] * drop + car[GIVE] * m->thrust_share;
      double lift = axle - car[TOP_ERROR] + drop;
      double widest = largest_radius(o, 0, POINTS - 1);
      for (int t = 0; t < setup->tubs; t++) {
        const Tub *tub = &setup->tub[t];
        double *need = &required[t * runs + run], *touch = &contact[t * runs + run];
        double offset = tub->centre_forward + car[CENTRE_ERROR] - forward;
        if (lift + round_bound(largest, widest, tub, offset, setup->reserve) <= *need &&
            lift + round_bound(largest, widest, tub, offset, 0) <= *touch)
          continue;
        Height height = required_height(o, tub, offset, setup->reserve, (Height){*need - lift, *touch - lift});
        if (!(lift + height.required <= *need)) *need = lift + height.required;
        if (!(lift + height.contact <= *touch)) *touch = lift + height.contact;
      }
    }
  }
}
