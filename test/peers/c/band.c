/*
 * Band that does not stretch, on radial and tangential springs, tensioned by air. With tau n^4 + (kw - tau) n^2 + kv =
 * tau (n^2 + B1^2)(n^2 + B2^2) the displacement is
 *   w = -1/(2 R tau) [S(B1) - S(B2)]/(B1^2 - B2^2),
 *   S(B) = phi(B alpha) (load B cosh Bt + thrust sinh Bt)/sinh(pi B),  phi(x) = 3(x cosh x - sinh x)/x^3.
 * Real roots p, q:   a e^{pt} + b e^{-pt} + c e^{qt} + d e^{-qt}
 * B = p + iq:        imaginary part of (a + ib) e^{Bt} + (c + id) e^{-Bt}
 * B = ip and iq:     a cos pt + b sin pt + c cos qt + d sin qt
 */
#include <math.h>

#include "model.h"

#define PI 3.14159265358979323846

typedef struct {
  double re, im;
} Complex;

static Complex times(Complex a, Complex b) { return (Complex){a.re * b.re - a.im * b.im, a.re * b.im + a.im * b.re}; }
static Complex over(Complex a, Complex b) {
  double n = b.re * b.re + b.im * b.im;
  return (Complex){(a.re * b.re + a.im * b.im) / n, (a.im * b.re - a.re * b.im) / n};
}

/* phi(x)/(2 sinh(pi B)) with x = B alpha, by decaying exponentials. */
static double real_weight(double root, double alpha) {
  double x = root * alpha, y = x * x, phi;
  if (x < 0.1) {
    phi = 1 + y / 10 + y * y / 280 + y * y * y / 15120;
  } else {
    double e = exp(x), f = 1 / e;
    phi = 1.5 * (x * (e + f) - (e - f)) / (x * y);
  }
  double decay = exp(-PI * root);
  return phi * decay / (1 - decay * decay);
}

static Complex complex_weight(Complex root, double alpha) {
  Complex x = {root.re * alpha, root.im * alpha}, y = times(x, x), phi;
  if (x.re * x.re + x.im * x.im < 0.01) {
    Complex yy = times(y, y), yyy = times(yy, y);
    phi = (Complex){1 + y.re / 10 + yy.re / 280 + yyy.re / 15120, y.im / 10 + yy.im / 280 + yyy.im / 15120};
  } else {
    double e = exp(x.re), f = 1 / e, c = cos(x.im), s = sin(x.im);
    Complex cosh = {0.5 * (e + f) * c, 0.5 * (e - f) * s}, sinh = {0.5 * (e - f) * c, 0.5 * (e + f) * s};
    Complex top = times(x, cosh);
    phi = over((Complex){3 * (top.re - sinh.re), 3 * (top.im - sinh.im)}, times(x, y));
  }
  double e = exp(-PI * root.re);
  Complex decay = {e * cos(PI * root.im), -e * sin(PI * root.im)}, square = times(decay, decay);
  return over(times(phi, decay), (Complex){1 - square.re, -square.im});
}

static double patch_weight(double x) {
  double y = x * x;
  if (x < 0.1) return 1 - y / 10 + y * y / 280 - y * y * y / 15120;
  return 3 * (sin(x) - x * cos(x)) / (x * y);
}

void fill_band(Outline *o, double radius, double radial, double tangential, double tension, double load, double thrust,
               double patch) {
  double half = (radial - tension) / (2 * tension), product = tangential / tension;
  double split = half * half - product;
  if (fabs(split) < 1e-10 * product) { /* a double root: moved apart by a part in 10^9 */
    product *= 1 - 2e-9;
    split = half * half - product;
  }
  double unit = -1 / (2 * radius * tension);
  if (split < 0) {
    double modulus = sqrt(product);
    Complex root = {sqrt(0.5 * (modulus + half)), sqrt(0.5 * (modulus - half))};
    Complex weight = complex_weight(root, patch);
    double scale = unit / (2 * root.re * root.im);
    Complex up = times(weight, (Complex){root.re * load + thrust, root.im * load});
    Complex down = times(weight, (Complex){root.re * load - thrust, root.im * load});
    o->kind = CONJUGATE_ROOTS;
    o->p = root.re, o->q = root.im;
    o->a = scale * up.re, o->b = scale * up.im, o->c = scale * down.re, o->d = scale * down.im;
    return;
  }
  double spread = sqrt(split);
  if (half > 0) {
    double p = sqrt(half + spread), q = sqrt(product / (half + spread));
    double first = unit / (p * p - q * q) * real_weight(p, patch);
    double second = -unit / (p * p - q * q) * real_weight(q, patch);
    o->kind = REAL_ROOTS;
    o->p = p, o->q = q;
    o->a = first * (p * load + thrust), o->b = first * (p * load - thrust);
    o->c = second * (q * load + thrust), o->d = second * (q * load - thrust);
  } else {
    double p = sqrt(spread - half), q = sqrt(product / (spread - half));
    double first = unit / (q * q - p * p) * patch_weight(p * patch) / sin(PI * p);
    double second = -unit / (q * q - p * p) * patch_weight(q * patch) / sin(PI * q);
    o->kind = IMAGINARY_ROOTS;
    o->p = p, o->q = q;
    o->a = first * p * load, o->b = first * thrust, o->c = second * q * load, o->d = second * thrust;
  }
}
