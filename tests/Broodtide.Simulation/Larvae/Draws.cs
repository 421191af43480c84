namespace Broodtide.Simulation.Larvae;

/// <summary>The laws of chance that larvae and their counts follow.</summary>
public static class Draws
{
    public static double LogNormal(this Dice dice, double median, double sdOfLog) =>
        median * Math.Exp(sdOfLog * dice.Normal());

    /// <summary>Gamma of scale one, by rejection (Marsaglia and Tsang 2000); below shape one by their boost.</summary>
    public static double Gamma(this Dice dice, double shape)
    {
        if (shape < 1)
        {
            return dice.Gamma(shape + 1) * Math.Pow(1 - dice.Even(), 1 / shape);
        }

        var d = shape - (1 / 3.0);
        var c = 1 / Math.Sqrt(9 * d);
        while (true)
        {
            var x = dice.Normal();
            var v = 1 + (c * x);
            v = v * v * v;
            if (v > 0 && Math.Log(1 - dice.Even()) < (0.5 * x * x) + d - (d * v) + (d * Math.Log(v)))
            {
                return d * v;
            }
        }
    }

    public static double GammaOfMean(this Dice dice, double mean, double cv) =>
        mean * cv * cv * dice.Gamma(1 / (cv * cv));

    /// <summary>Poisson by counting exponential waits: plain, and quick enough for counts of larvae.</summary>
    public static int Poisson(this Dice dice, double mean)
    {
        var count = 0;
        for (var wait = dice.Exponential(1); wait < mean; wait += dice.Exponential(1))
        {
            count++;
        }

        return count;
    }

    public static int NegativeBinomial(this Dice dice, double mean, double size) =>
        dice.Poisson(mean / size * dice.Gamma(size));

    public static int Binomial(this Dice dice, int trials, double probability)
    {
        var count = 0;
        for (var i = 0; i < trials; i++)
        {
            count += dice.Chance(probability) ? 1 : 0;
        }

        return count;
    }

    public static int Whole(this Dice dice, int low, int high) =>
        low + Math.Min((int)((high - low + 1) * dice.Even()), high - low);

    /// <summary>Some of the items, each as likely as any other, none twice.</summary>
    public static IReadOnlyList<T> Pick<T>(this Dice dice, IReadOnlyList<T> items, int count)
    {
        var left = items.ToArray();
        var taken = Math.Min(count, left.Length);
        for (var i = 0; i < taken; i++)
        {
            var other = dice.Whole(i, left.Length - 1);
            (left[i], left[other]) = (left[other], left[i]);
        }

        return left[..taken];
    }

    /// <summary>Truth over the number a keeper writes at a crossing: gamma of mean one and CV 0.6.</summary>
    public static double KeepersFactor(this Dice dice, double cv = 0.6) => dice.GammaOfMean(1, cv);
}
