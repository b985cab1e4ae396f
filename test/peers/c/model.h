/* The clearance model in plain C, written from its formulas as a second hand: SI, angles in rad from straight up. */
#ifndef MODEL_H
#define MODEL_H

/* Columns of a draws file, in the order in which it holds them. */
enum {
  MASS, REAR_SHARE, WHEELBASE, CG_HEIGHT, DRAG_AREA, DRAG_HEIGHT, DOWNFORCE_AREA, ROLLING, WHEEL_RATE, BUMP_TRAVEL,
  STOP_RATE, DROOP_TRAVEL, ANTI_SQUAT, PATH_SLOPE, GIVE, TORQUE_ROLL, ADDED_MASS, TOP_ERROR, CENTRE_ERROR, TRAP_SPEED,
  LAUNCH_ACCELERATION, FINISH_ACCELERATION, SLIP_LAUNCH, SLIP_UNDERWAY, SLIP_GRIP_LOST, GRIP_LOST_TOSS, SLIP_FINISH,
  BURNOUT_SPEED, BURNOUT_THRUST, GEAR_OVERSHOOT, LIFT_OVERSHOOT, CHUTE_DECELERATION, CHUTE_HEIGHT, BUMP,
  AIR_TEMPERATURE, STATION_PRESSURE, HUMIDITY, CAR_INPUTS
};
enum {
  REFERENCE_RADIUS, RADIUS_PER_PRESSURE, GROWTH_SCALE, GROWTH_SPEED_FACTOR, GROWTH_CARCASS, PATCH_CARCASS, TYRE_MASS,
  SECTION_WIDTH, TREAD_WIDTH, STIFFNESS_FACTOR, TANGENTIAL_RATIO, LOBE_HEIGHT, LOBE_ANGLE, RUN_OUT, COLD_PRESSURE,
  AIR_HEATING, VOLUME_RATIO, RIDE_CHANGE, TYRE_INPUTS
};
enum { BURNOUT, LAUNCH, GEAR_CHANGE, MIDDLE, GRIP_LOST, FINISH, AFTER_LIFT, PARACHUTE, MOMENTS };

#define GRAVITY 9.80665
#define MOST_TUBS 16

typedef struct {
  double radius, half_extent, leg_length, centre_forward;
  double sin_end, cos_end;
  double end_side, end_below; /* where a leg ends, from the arc's centre */
  int upright; /* the arc ends in vertical legs */
} Tub;

typedef struct {
  int bias;
  double reference_pressure, radial_stiffness;
} Tyre;

typedef struct {
  int runs, tubs, finish_is_relative, axle_is_measured;
  double distance, grip_lost_chance, reserve, growth_factor, axle_height, build_pressure;
  Tyre tyre, build;
  Tub tub[MOST_TUBS];
} Setup;

/* What the car does to one rear tyre and one rear spring at one moment. */
typedef struct {
  double tread_speed, thrust, load, spring, thrust_share;
  int happens, moving;
} Moment;

/* The tyre's air and carcass before the car moves; [0] cold, [1] hot. */
typedef struct {
  double pressure[2], radius[2], growth[2]; /* growth: v_c of a bias tyre, q of a radial */
  double scale, radial, tangential;
} Inflated;

/* Outer edge r = base + band + lobe, with a table every 10 degrees from -120 to 120: points and their derivatives. */
enum { HALF = 12, POINTS = 2 * HALF + 1, REACH = 10 };
#define STEP (3.14159265358979323846 / 18)
typedef enum { REAL_ROOTS, CONJUGATE_ROOTS, IMAGINARY_ROOTS } Kind;
typedef struct {
  Kind kind;
  double p, q;        /* roots p and q, or p + iq */
  double a, b, c, d;  /* see band.c */
  double base, lobe_height, lobe_angle;
  double r[POINTS], x[POINTS], z[POINTS], dr[POINTS], dx[POINTS], dz[POINTS];
} Outline;

/* What must be beaten, and what came out: crown above the axle, for the reserve and for none. */
typedef struct {
  double required, contact;
} Height;

void fill_moments(const double *car, const Setup *setup, Moment *moment);
double body_drop(const double *car, double ride_change, double force, int moving);

void inflate(const double *tyre, const Tyre *facts, double temperature, double pressure, Inflated *air);
double static_loaded_radius(const double *car, const double *tyre, const Tyre *facts, double pressure);
void fill_band(Outline *o, double radius, double radial, double tangential, double tension, double load, double thrust,
               double patch);
void fill_lobe(double lobe[2][POINTS], double height, double angle);
void shape_tyre(const double *tyre, const Tyre *facts, const Inflated *air, const Moment *moment, double growth_factor,
                const double lobe[2][POINTS], Outline *o);
void outline_at(const Outline *o, double angle, double *r, double *slope, double *bend);
double largest_radius(const Outline *o, int first, int last);
double patch_half_angle(double load, double pressure, double carcass, double width, double radius);

double round_bound(double largest, double widest, const Tub *tub, double offset, double reserve);
Height required_height(const Outline *o, const Tub *tub, double offset, double reserve, Height beat);

/* Heights above the track, tub by tub: place tub * runs + run. */
void evaluate(const Setup *setup, const double *draws, double *required, double *contact);

#endif
