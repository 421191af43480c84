namespace Broodtide.Science.Estimation.Vessels;

/// <summary>Some of the members of an ensemble, one after another, while they are run: whole blocks, filled up behind the last member.</summary>
internal sealed class VesselPart
{
    private VesselPart(int first, int count, double[][] stocks, double[][] parameters)
    {
        (First, Count, Stocks, Parameters) = (first, count, stocks, parameters);
    }

    /// <summary>Number of the first member.</summary>
    public int First { get; }

    /// <summary>How many members; what stands behind them in the arrays is a copy of the last.</summary>
    public int Count { get; }

    public double[][] Stocks { get; }

    public double[][] Parameters { get; }

    /// <summary>Copies an ensemble in so many parts of about one size, or as many as it has blocks.</summary>
    public static VesselPart[] Of(VesselEnsemble members, int parts)
    {
        var blocks = members.Stocks[0].Length / VesselEnsemble.Block;
        var some = Math.Clamp(parts, 1, blocks);
        return
        [
            .. Enumerable
                .Range(0, some)
                .Select(part =>
                {
                    var from = part * blocks / some * VesselEnsemble.Block;
                    var to = (part + 1) * blocks / some * VesselEnsemble.Block;
                    return new VesselPart(
                        from,
                        Math.Min(to, members.Members) - from,
                        [.. members.Stocks.Select(array => array[from..to])],
                        [.. members.Parameters.Select(array => array[from..to])]
                    );
                }),
        ];
    }

    /// <summary>The arrays of all parts behind one another.</summary>
    public static double[][] Joined(VesselPart[] parts, Func<VesselPart, double[][]> arrays) =>
        parts is [var whole]
            ? arrays(whole)
            :
            [
                .. Enumerable
                    .Range(0, arrays(parts[0]).Length)
                    .Select(array => parts.SelectMany(part => arrays(part)[array]).ToArray()),
            ];
}
