/* Speeds and forces of the moments of one run. */
#include <math.h>

#include "model.h"

/* Density of moist air, CIPM-2007 (Picard et al., Metrologia 45 (2008) 149), 400 ppm of carbon dioxide, kg/m3. */
static double air_density(double T, double p, double humidity) {
  double t = T - 273.15;
  double saturation = exp(((1.2378847e-5 * T - 1.9121316e-2) * T + 33.93711047) - 6.3431645e3 / T);
  double enhancement = 1.00062 + 3.14e-8 * p + 5.6e-7 * t * t;
  double x = humidity * enhancement * saturation / p;
  double virial = 1.58123e-6 + t * (-2.9331e-8 + 1.1043e-10 * t) + (5.707e-6 - 2.051e-8 * t) * x +
                  (1.9898e-4 - 2.376e-6 * t) * x * x;
  double per = p / T;
  double z = 1 - per * virial + per * per * (1.83e-11 - 0.765e-8 * x * x);
  return p * 28.96546e-3 / (z * 8.314472 * T) * (1 - 0.378 * x);
}

/*
 * Point mass: acceleration a up to v1, then constant power against drag k v^2, through `trap` at `distance`.
 * v^3 at the end = v1^3 + (a v1/k)(1 - E), E = exp(-3k(distance - v1^2/2a)); its derivative is (1 - E)(3 v1^2 + a/k).
 */
typedef struct {
  double acceleration, shift_speed, shift_distance, power, k;
} Run;

static Run solve_run(double a, double trap, double distance, double k) {
  Run run = {a, trap, distance, 0, k};
  if (trap * trap >= 2 * a * distance) {
    run.acceleration = trap * trap / (2 * distance);
  } else {
    double target = trap * trap * trap;
    double v = fmin(0.95 * trap, target / (3 * distance * a));
    for (int i = 0; i < 30; i++) {
      double rest = -expm1(-3 * k * (distance - v * v / (2 * a)));
      double change = (target - v * v * v - a * v / k * rest) / (rest * (3 * v * v + a / k));
      v = fmin(v + change, 0.999 * trap);
      if (fabs(change) < 1e-14 * v) break;
    }
    run.shift_speed = v;
    run.shift_distance = v * v / (2 * a);
  }
  run.power = run.shift_speed * (run.acceleration + k * run.shift_speed * run.shift_speed);
  return run;
}

static double power_acceleration(const Run *run, double v) { return run->power / v - run->k * v * v; }

/* Fills one moment and gives the spring force without overshoot, roll and added mass. */
static double press(const double *car, double density, double speed, double slip, double thrust, double chute,
                    Moment *m) {
  double weight = car[MASS] * GRAVITY, rear = weight * car[REAR_SHARE];
  double q = 0.5 * density * speed * speed;
  double down = q * car[DOWNFORCE_AREA], drag = q * car[DRAG_AREA];
  double h = car[CG_HEIGHT], L = car[WHEELBASE];
  double transfer = (thrust * h + drag * (car[DRAG_HEIGHT] - h) + chute * (car[CHUTE_HEIGHT] - h)) / L;
  if (transfer > weight - rear) transfer = weight - rear;
  m->tread_speed = speed * (1 + slip);
  m->thrust = 0.5 * thrust;
  m->load = fmax(0, 0.5 * (rear + down + transfer));
  m->happens = 1;
  m->moving = 1;
  return 0.5 * (down + transfer - car[ANTI_SQUAT] * thrust * h / L);
}

void fill_moments(const double *car, const Setup *setup, Moment *moment) {
  double mass = car[MASS], weight = mass * GRAVITY;
  double density = air_density(car[AIR_TEMPERATURE], car[STATION_PRESSURE], car[HUMIDITY]);
  double trap = car[TRAP_SPEED];
  double drag = 0.5 * density * car[DRAG_AREA]; /* N per (m/s)^2 */
  Run run = solve_run(car[LAUNCH_ACCELERATION], trap, setup->distance, drag / mass);
  double roll = car[ROLLING] * weight;
#define THRUST(acceleration, speed) (mass * (acceleration) + drag * (speed) * (speed) + roll)

  double launch_speed = sqrt(2 * run.acceleration * 3);
  double launch = THRUST(run.acceleration, launch_speed);
  double half = 0.5 * setup->distance, middle_speed, middle_acceleration;
  if (half <= run.shift_distance) {
    middle_speed = run.shift_speed * sqrt(half / run.shift_distance);
    middle_acceleration = run.acceleration;
  } else {
    double v = run.shift_speed;
    middle_speed = cbrt(v * v * v - run.acceleration * v / run.k * expm1(-3 * run.k * (half - run.shift_distance)));
    middle_acceleration = power_acceleration(&run, middle_speed);
  }
  double middle = THRUST(middle_acceleration, middle_speed);
  double finish_acceleration = car[FINISH_ACCELERATION];
  if (setup->finish_is_relative) finish_acceleration *= power_acceleration(&run, trap);
  double finish = fmax(0, THRUST(finish_acceleration, trap));
  double burnout = car[BURNOUT_THRUST] * weight * car[REAR_SHARE];

  /* The car stands on its front brakes: no load moves. */
  moment[BURNOUT] = (Moment){car[BURNOUT_SPEED], 0.5 * burnout, 0.5 * weight * car[REAR_SHARE], 0, 0, 1, 0};
  moment[LAUNCH].spring = press(car, density, launch_speed, car[SLIP_LAUNCH], launch, 0, &moment[LAUNCH]);
  double shift = THRUST(run.acceleration, run.shift_speed);
  double before = press(car, density, run.shift_speed, 0, 0, 0, &moment[GEAR_CHANGE]);
  double after = press(car, density, run.shift_speed, car[SLIP_UNDERWAY], shift, 0, &moment[GEAR_CHANGE]);
  moment[GEAR_CHANGE].spring = after + (car[GEAR_OVERSHOOT] - 1) * (after - before);
  moment[MIDDLE].spring = press(car, density, middle_speed, car[SLIP_UNDERWAY], middle, 0, &moment[MIDDLE]);
  moment[GRIP_LOST] = moment[MIDDLE];
  moment[GRIP_LOST].tread_speed = middle_speed * (1 + car[SLIP_GRIP_LOST]);
  moment[GRIP_LOST].happens = car[GRIP_LOST_TOSS] < setup->grip_lost_chance;
  double at_finish = press(car, density, trap, car[SLIP_FINISH], finish, 0, &moment[FINISH]);
  moment[FINISH].spring = at_finish;
  double lifted = press(car, density, trap, 0, 0, 0, &moment[AFTER_LIFT]);
  moment[AFTER_LIFT].spring = lifted + (car[LIFT_OVERSHOOT] - 1) * (lifted - at_finish);
  double pulled = press(car, density, trap, 0, 0, mass * car[CHUTE_DECELERATION], &moment[PARACHUTE]);
  moment[PARACHUTE].spring = pulled + (car[LIFT_OVERSHOOT] - 1) * (pulled - lifted);

  double standing = 0.5 * car[ADDED_MASS] * GRAVITY, torque = car[WHEEL_RATE] * car[TORQUE_ROLL];
  for (int i = 0; i < MOMENTS; i++) {
    moment[i].thrust_share = 2 * moment[i].thrust / launch;
    moment[i].spring += standing + torque * moment[i].thrust_share;
  }
}

double body_drop(const double *car, double ride_change, double force, int moving) {
  double k = car[WHEEL_RATE], travel = car[BUMP_TRAVEL] + ride_change, droop = car[DROOP_TRAVEL] - ride_change;
  double u = force / k;
  if (u > travel) u = travel + (force - k * travel) / (k + car[STOP_RATE]);
  if (u < -droop) u = -droop;
  return u - ride_change + (moving ? car[BUMP] : 0);
}
