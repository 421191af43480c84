namespace Broodtide.Science.Imaging;

/// <summary>The answer of a picture to blobs of one size.</summary>
public static class Blobs
{
    /// <summary>
    /// Minus sigma squared times the Laplacian of the picture blurred by sigma: highest in the middle of a bright disc
    /// of radius sigma times the root of 2 (Lindeberg 1998, Int. J. Comput. Vis. 30:79). Flat and sloping parts give 0.
    /// </summary>
    /// <param name="source">The picture.</param>
    /// <param name="shape">Its shape; beyond the edge lies the mirror image.</param>
    /// <param name="sigma">Standard deviation in pixels, 0.5 to 1,000.</param>
    /// <param name="target">The answer, in the unit of the picture; not the picture itself.</param>
    /// <exception cref="ArgumentException">A grid has another shape.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Sigma is not finite or outside its range.</exception>
    public static void LaplacianOfGaussian(
        ReadOnlySpan<float> source,
        GridShape shape,
        double sigma,
        Span<float> target
    )
    {
        shape.MustFit(source);
        shape.MustFit<float>(target);
        Units.Finite.Within(sigma, 0.5, 1_000);
        var plain = Blur.Weights(sigma);
        var bent = Bent(plain, sigma);
        Separable.Sum(source, shape, (bent, plain), target);
        Separable.Sum(source, shape, (plain, bent), target, isAdded: true);
    }

    /// <summary><see cref="LaplacianOfGaussian"/> with pauses.</summary>
    internal static IEnumerable<Pause> Steps(float[] source, GridShape shape, double sigma, float[] target)
    {
        Units.Finite.Within(sigma, 0.5, 1_000);
        var plain = Blur.Weights(sigma);
        var bent = Bent(plain, sigma);
        return Separable
            .Steps(source, shape, (bent, plain), target)
            .Concat(Separable.Steps(source, shape, (plain, bent), target, isAdded: true));
    }

    // Minus sigma squared times the second derivative of the Gaussian, made to sum to 0 and to answer a parabola x^2
    // by exactly minus 2 sigma^2, as the derivative of the uncut curve does.
    private static float[] Bent(float[] plain, double sigma)
    {
        var reach = plain.Length / 2;
        var bent = new double[plain.Length];
        for (var i = 0; i < bent.Length; i++)
        {
            var x = (i - reach) / sigma;
            bent[i] = (1 - (x * x)) * plain[i];
        }

        var mean = bent.Sum() / bent.Length;
        var answer = 0.0;
        for (var i = 0; i < bent.Length; i++)
        {
            bent[i] -= mean;
            answer += bent[i] * (i - reach) * (i - reach);
        }

        return Array.ConvertAll(bent, weight => (float)(weight * -2 * sigma * sigma / answer));
    }
}
