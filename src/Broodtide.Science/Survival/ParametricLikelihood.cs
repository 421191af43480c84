using MathNet.Numerics;
using MathNet.Numerics.LinearAlgebra;

namespace Broodtide.Science.Survival;

/// <summary>
/// Log-likelihood of Weibull lives with its first and second derivatives. With z = (ln t - m)/s and u = exp(z) a
/// life outlasts t with probability exp(-u).
/// </summary>
internal sealed class ParametricLikelihood
{
    private readonly DeathWindow[] _windows;
    private readonly double[] _covariate;
    private readonly bool _fitsScale;

    internal ParametricLikelihood(
        ReadOnlySpan<DeathWindow> windows,
        ReadOnlySpan<double> covariate,
        LifeShape shape
    )
    {
        // One that was alive at the very beginning says nothing.
        _windows = windows.ToArray();
        _covariate = new double[covariate.Length];
        for (var i = 0; i < covariate.Length; i++)
        {
            _covariate[i] = Units.Finite.Required(covariate[i], nameof(covariate));
        }

        _fitsScale = shape == LifeShape.Weibull;
    }

    internal bool HasCovariate => _covariate.Length > 0;

    private int Count => 1 + (HasCovariate ? 1 : 0) + (_fitsScale ? 1 : 0);

    internal double ScaleOf(Vector<double> point) => _fitsScale ? Math.Exp(point[Count - 1]) : 1;

    /// <summary>The logarithm of the mean time at which lives ended or were last seen, and a scale of one.</summary>
    internal Vector<double> Start()
    {
        var times = _windows.Sum(window => 0.5 * (window.After + (window.UpTo ?? window.After)));
        var start = Vector<double>.Build.Dense(Count);
        start[0] = times > 0 ? Math.Log(times / _windows.Length) : 0;
        return start;
    }

    internal (double Value, Vector<double> Slope, Matrix<double> Curvature) At(Vector<double> point)
    {
        var value = 0.0;
        var slope = Vector<double>.Build.Dense(Count);
        var curvature = Matrix<double>.Build.Dense(Count, Count);
        for (var i = 0; i < _windows.Length; i++)
        {
            value += Add(_windows[i], HasCovariate ? _covariate[i] : 0, point, slope, curvature);
        }

        return (value, slope, curvature);
    }

    private double Add(
        DeathWindow window,
        double covariate,
        Vector<double> point,
        Vector<double> slope,
        Matrix<double> curvature
    )
    {
        var scale = ScaleOf(point);
        var middle = point[0] + (HasCovariate ? covariate * point[1] : 0);
        double Z(double time) => (Math.Log(time) - middle) / scale;

        // First and second derivative by z at one end of the window.
        void End(double z, double first, double second)
        {
            var along = Along(z, scale, covariate);
            slope.Add(first * along, slope);
            curvature.Add(second * along.OuterProduct(along), curvature);
            Bend(z, scale, covariate, first, curvature);
        }

        if (window.IsExact)
        {
            var z = Z(window.After);
            var u = Math.Exp(z);
            End(z, 1 - u, -u);
            if (_fitsScale)
            {
                slope[Count - 1] -= 1;
            }

            return z - u - Math.Log(scale) - Math.Log(window.After);
        }

        // With no look alive before, z is minus infinity, and its u and every derivative by it vanish.
        var left = window.After > 0 ? Z(window.After) : 0;
        var before = window.After > 0 ? Math.Exp(left) : 0;
        if (window.UpTo is not { } upTo)
        {
            if (window.After > 0)
            {
                End(left, -before, -before);
            }

            return -before;
        }

        var right = Z(upTo);
        var after = Math.Exp(right);
        // Survivors at either end over deaths between, without a difference of two tiny numbers.
        var between = -SpecialFunctions.Expm1(before - after);
        var aliveLeft = 1 / between;
        var aliveRight = aliveLeft - 1;
        var firstLeft = -before * aliveLeft;
        var firstRight = after * aliveRight;
        var cross = -firstLeft * firstRight;
        if (window.After > 0)
        {
            End(left, firstLeft, (aliveLeft * ((before * before) - before)) - (firstLeft * firstLeft));
            var product = Along(left, scale, covariate).OuterProduct(Along(right, scale, covariate));
            curvature.Add(cross * (product + product.Transpose()), curvature);
        }

        End(right, firstRight, (-aliveRight * ((after * after) - after)) - (firstRight * firstRight));
        return -before + Math.Log(between);
    }

    // Derivatives of z by intercept, coefficient and log scale.
    private Vector<double> Along(double z, double scale, double covariate)
    {
        var along = Vector<double>.Build.Dense(Count);
        along[0] = -1 / scale;
        if (HasCovariate)
        {
            along[1] = -covariate / scale;
        }

        if (_fitsScale)
        {
            along[Count - 1] = -z;
        }

        return along;
    }

    // Second derivatives of z, which has some only with the log scale, times the first derivative by z.
    private void Bend(double z, double scale, double covariate, double first, Matrix<double> curvature)
    {
        if (!_fitsScale)
        {
            return;
        }

        var last = Count - 1;
        curvature[last, last] += first * z;
        curvature[last, 0] += first / scale;
        curvature[0, last] += first / scale;
        if (HasCovariate)
        {
            curvature[last, 1] += first * covariate / scale;
            curvature[1, last] += first * covariate / scale;
        }
    }
}
