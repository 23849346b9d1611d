/* units.h - the only place where units are converted. SI inside, trade units at the edges. */
#ifndef SETTEE_BASE_UNITS_H
#define SETTEE_BASE_UNITS_H

#define UNITS_PI 3.14159265358979323846
#define UNITS_GRAVITY_MPS2 9.80665 /* standard gravity, by definition */

static inline double m_from_in(double in) { return in * 0.0254; }
static inline double in_from_m(double m) { return m / 0.0254; }
static inline double m_from_ft(double ft) { return ft * 0.3048; }
static inline double ft_from_m(double m) { return m / 0.3048; }
static inline double mps_from_mph(double mph) { return mph * 0.44704; }
static inline double mph_from_mps(double mps) { return mps / 0.44704; }
static inline double radps_from_rpm(double rpm) { return rpm * (UNITS_PI / 30.0); }
static inline double rpm_from_radps(double radps) { return radps * (30.0 / UNITS_PI); }
static inline double rad_from_deg(double deg) { return deg * (UNITS_PI / 180.0); }
static inline double deg_from_rad(double rad) { return rad * (180.0 / UNITS_PI); }
static inline double kg_from_lb(double lb) { return lb * 0.45359237; }

#endif
