/*
 * Reads a setup (text) and a draws file (doubles, column by column). With a third name writes the answers there, doubles:
 * heights with the reserve, heights without, each tub by tub. Without it: one evaluation for each line
 * of standard input, answered by a line with its processor seconds and the sum of the finite heights.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "model.h"

static void stop(const char *what, const char *name) {
  fprintf(stderr, "%s: %s\n", name, what);
  exit(1);
}

static void read_setup(const char *name, Setup *s) {
  FILE *in = fopen(name, "r");
  char line[256], key[64], text[64];
  double v[5];
  if (!in) stop("cannot be read", name);
  memset(s, 0, sizeof *s);
  while (fgets(line, sizeof line, in)) {
    int n = sscanf(line, "%63s %lf %lf %lf %lf", key, &v[0], &v[1], &v[2], &v[3]) - 1;
    if (n <= 0) n = sscanf(line, "%63s %63s", key, text) == 2 ? 0 : -1;
    if (n < 0) continue;
    if (!strcmp(key, "runs")) s->runs = (int)v[0];
    else if (!strcmp(key, "distance")) s->distance = v[0];
    else if (!strcmp(key, "finishAccelerationIs")) s->finish_is_relative = !strcmp(text, "relative");
    else if (!strcmp(key, "gripLostChance")) s->grip_lost_chance = v[0];
    else if (!strcmp(key, "reserve")) s->reserve = v[0];
    else if (!strcmp(key, "growthFactor")) s->growth_factor = v[0];
    else if (!strcmp(key, "construction")) s->tyre.bias = !strcmp(text, "bias");
    else if (!strcmp(key, "tyre")) s->tyre.reference_pressure = v[0], s->tyre.radial_stiffness = v[1];
    else if (!strcmp(key, "axleHeight")) s->axle_is_measured = 1, s->axle_height = v[0];
    else if (!strcmp(key, "build"))
      s->build_pressure = v[0], s->build.reference_pressure = v[1], s->build.radial_stiffness = v[2];
    else if (!strcmp(key, "tub") && n == 4 && s->tubs < MOST_TUBS) {
      Tub *t = &s->tub[s->tubs++];
      t->radius = v[0], t->half_extent = v[1], t->centre_forward = v[2], t->leg_length = v[3];
      t->upright = t->half_extent > acos(0) - 1e-9;
      t->sin_end = t->upright ? 1 : sin(t->half_extent);
      t->cos_end = t->upright ? 0 : cos(t->half_extent);
      t->end_side = t->radius * t->sin_end + t->leg_length * t->cos_end;
      t->end_below = t->leg_length * t->sin_end - t->radius * t->cos_end;
    } else stop("has a line that is not known", name);
  }
  fclose(in);
  if (s->runs < 1 || s->tubs < 1) stop("names no runs or no tubs", name);
}

static double seconds(void) {
  struct timespec now;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
  return now.tv_sec + 1e-9 * now.tv_nsec;
}

int main(int count, char **names) {
  Setup setup;
  if (count < 3) stop("give a setup, a draws file and, to have them written, a file for the answers", names[0]);
  read_setup(names[1], &setup);
  size_t columns = CAR_INPUTS + TYRE_INPUTS + (setup.axle_is_measured ? 0 : TYRE_INPUTS);
  size_t values = columns * setup.runs, size = (size_t)setup.tubs * setup.runs;
  double *draws = malloc(values * sizeof *draws), *answers = malloc(2 * size * sizeof *answers);
  FILE *in = fopen(names[2], "rb");
  if (!draws || !answers || !in || fread(draws, sizeof *draws, values, in) != values) stop("is too short", names[2]);
  fclose(in);
  if (count > 3) {
    evaluate(&setup, draws, answers, answers + size);
    FILE *out = fopen(names[3], "wb");
    if (!out || fwrite(answers, sizeof *answers, 2 * size, out) != 2 * size || fclose(out)) stop("not written", names[3]);
    return 0;
  }
  char line[64];
  while (fgets(line, sizeof line, stdin)) {
    double before = seconds(), sum = 0;
    evaluate(&setup, draws, answers, answers + size);
    double spent = seconds() - before;
    for (size_t i = 0; i < 2 * size; i++)
      if (isfinite(answers[i])) sum += answers[i];
    printf("%.6f %.9f\n", spent, sum);
    fflush(stdout);
  }
  return 0;
}
