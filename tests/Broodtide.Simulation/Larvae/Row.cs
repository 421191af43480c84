using System.Globalization;

namespace Broodtide.Simulation.Larvae;

/// <summary>One row of events; what is not known is blank.</summary>
public sealed record Row(double Day, string Kind)
{
    public const string Header = "t_days,kind,cohort,x,fraction,n,stages";

    public int? Cohort { get; init; }

    public double? X { get; init; }

    public double? Fraction { get; init; }

    public int? N { get; init; }

    public IReadOnlyList<int>? Stages { get; init; }

    public string Written() =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"{Day:0.###},{Kind},{Cohort},{X:0.##},{Fraction:0.####},{N},{(Stages is null ? "" : string.Join(' ', Stages))}"
        );
}
