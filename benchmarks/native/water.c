/*
 * The peer of the water kernels: PSS-78 and EOS-80 as published (Fofonoff and Millard 1983, UNESCO Technical Papers in
 * Marine Science 44), one plain loop over rows, left to the compiler. Beside them a copy, a triad and a chain-free loop of
 * multiply-adds, to say what the machine gives.
 *
 *   cc -O3 -march=native -fno-math-errno -fPIC -shared water.c -lm -o libwater.so
 */
#include <math.h>
#include <stddef.h>

static const double scale68 = 1.00024;

static inline double pss(double x, double f)
{
    double a = 0.0080 + x * (-0.1692 + x * (25.3851 + x * (14.0941 + x * (-7.0261 + x * 2.7081))));
    double b = 0.0005 + x * (-0.0056 + x * (-0.0066 + x * (-0.0375 + x * (0.0636 + x * -0.0144))));
    return a + f * b;
}

static inline double slope(double x, double f)
{
    double a = -0.1692 + x * (2 * 25.3851 + x * (3 * 14.0941 + x * (4 * -7.0261 + x * (5 * 2.7081))));
    double b = -0.0056 + x * (2 * -0.0066 + x * (3 * -0.0375 + x * (4 * 0.0636 + x * (5 * -0.0144))));
    return a + f * b;
}

static inline double ratio_at(double t)
{
    return 0.6766097 + t * (2.00564e-2 + t * (1.104259e-4 + t * (-6.9698e-7 + t * 1.0031e-9)));
}

static inline double root_of(double r, double t, double p)
{
    double above = p * (2.070e-5 + p * (-6.370e-10 + p * 3.989e-15));
    double below = 1 + t * (3.426e-2 + t * 4.464e-4) + (4.215e-1 + t * -3.107e-3) * r;
    return sqrt(r / (ratio_at(t) * (1 + above / below)));
}

static inline double warmth(double t)
{
    return (t - 15) / (1 + 0.0162 * (t - 15));
}

void pss78(const double *restrict r, const double *restrict t90, const double *restrict p, double *restrict s, size_t n)
{
    for (size_t i = 0; i < n; i++)
    {
        double t = scale68 * t90[i];
        s[i] = pss(root_of(r[i], t, p[i]), warmth(t));
    }
}

void pss78_surface(const double *restrict r, const double *restrict t90, double *restrict s, size_t n)
{
    for (size_t i = 0; i < n; i++)
    {
        double t = scale68 * t90[i];
        s[i] = pss(sqrt(r[i] / ratio_at(t)), warmth(t));
    }
}

static inline double corrected(double s, double x, double f)
{
    double a = 400 * x * x, b = 10 * x;
    return s - 0.0080 / (1 + a * (1.5 + a)) - 0.0005 * f / (1 + b * (1 + b * (1 + b)));
}

/* The branch below S = 2 is a second walk, so that the first can use vectors. */
void pss78_low(const double *restrict r, const double *restrict t90, const double *restrict p, double *restrict s, size_t n)
{
    pss78(r, t90, p, s, n);
    for (size_t i = 0; i < n; i++)
    {
        if (s[i] < 2)
        {
            double t = scale68 * t90[i], f = warmth(t), x = 0.26;
            for (int step = 0; step < 4; step++)
                x -= (pss(x, f) - 2) / slope(x, f);
            double low = 2 / corrected(2, x, f) * corrected(s[i], root_of(r[i], t, p[i]), f);
            s[i] = low > 0 ? low : 0;
        }
    }
}

static inline double surface(double s, double root, double t)
{
    double pure = 999.842594
        + t * (6.793952e-2 + t * (-9.095290e-3 + t * (1.001685e-4 + t * (-1.120083e-6 + t * 6.536332e-9))));
    double linear = 8.24493e-1 + t * (-4.0899e-3 + t * (7.6438e-5 + t * (-8.2467e-7 + t * 5.3875e-9)));
    double three = -5.72466e-3 + t * (1.0227e-4 + t * -1.6546e-6);
    return pure + s * linear + s * root * three + 4.8314e-4 * s * s;
}

void eos80_surface(const double *restrict s, const double *restrict t90, double *restrict rho, size_t n)
{
    for (size_t i = 0; i < n; i++)
        rho[i] = surface(s[i], sqrt(s[i]), scale68 * t90[i]);
}

void eos80(const double *restrict sal, const double *restrict t90, const double *restrict dbar, double *restrict rho, size_t n)
{
    for (size_t i = 0; i < n; i++)
    {
        double s = sal[i], t = scale68 * t90[i], p = dbar[i] * 0.1, root = sqrt(s), s15 = s * root;
        double k = 19652.21 + t * (148.4206 + t * (-2.327105 + t * (1.360477e-2 + t * -5.155288e-5)))
            + s * (54.6746 + t * (-0.603459 + t * (1.09987e-2 + t * -6.1670e-5)))
            + s15 * (7.944e-2 + t * (1.6483e-2 + t * -5.3009e-4));
        double a = 3.239908 + t * (1.43713e-3 + t * (1.16092e-4 + t * -5.77905e-7))
            + s * (2.2838e-3 + t * (-1.0981e-5 + t * -1.6078e-6)) + s15 * 1.91075e-4;
        double b = 8.50935e-5 + t * (-6.12293e-6 + t * 5.2787e-8)
            + s * (-9.9348e-7 + t * (2.0816e-8 + t * 9.1697e-10));
        rho[i] = surface(s, root, t) / (1 - p / (k + p * (a + p * b)));
    }
}

void triad(const double *restrict a, const double *restrict b, double *restrict c, size_t n)
{
    for (size_t i = 0; i < n; i++)
        c[i] = a[i] + 3.0 * b[i];
}

void copy(const double *restrict a, double *restrict c, size_t n)
{
    for (size_t i = 0; i < n; i++)
        c[i] = a[i];
}

/* Multiply-adds that wait for nothing but the units: 16 sums of one vector each. Two operations to each of 16 x 8. */
double multiply_adds(size_t turns)
{
    typedef double lane __attribute__((vector_size(64)));
    lane sum[16];
    for (int i = 0; i < 16; i++)
        sum[i] = (lane){} + 1.0 + i;
    lane x = (lane){} + 0.999999, y = (lane){} + 1e-6;
    for (size_t turn = 0; turn < turns; turn++)
    {
#pragma GCC unroll 16
        for (int i = 0; i < 16; i++)
            sum[i] = sum[i] * x + y;
    }
    double whole = 0;
    for (int i = 0; i < 16; i++)
        for (int j = 0; j < 8; j++)
            whole += sum[i][j];
    return whole;
}
