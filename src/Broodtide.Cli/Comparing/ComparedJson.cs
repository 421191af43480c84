using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Workbench.Comparing;

namespace Broodtide.Cli.Comparing;

/// <summary>One treatment.</summary>
internal sealed record ArmJson(
    string Treatment,
    int Vessels,
    int Alive,
    int Started,
    PointsJson Share,
    double? Correlation,
    double? LogLikelihood,
    double? TaroneZ,
    string Basis
);

/// <summary>A test by dealing the vessels anew.</summary>
internal sealed record PermutationJson(
    double P,
    double? AdjustedP,
    double SmallestP,
    long Arrangements,
    bool Exact
);

/// <summary>Two treatments.</summary>
internal sealed record PairJson(
    string Treatment,
    string With,
    PointsJson Difference,
    PointsJson? LogOddsRatio,
    double? Correlation,
    PermutationJson? Permutation
);

/// <summary>One coefficient.</summary>
internal sealed record CoefficientJson(string Name, double Estimate, double? StandardError);

/// <summary>One factor of a line.</summary>
internal sealed record FactorJson(string Factor, double F);

/// <summary>One line over several factors.</summary>
internal sealed record FactorsJson(
    double Deviance,
    int DegreesOfFreedom,
    double Dispersion,
    IReadOnlyList<FactorJson> LeavingOut,
    double? BetaBinomialCorrelation,
    IReadOnlyList<CoefficientJson> BetaBinomial
);

/// <summary>Treatments compared.</summary>
internal sealed record ComparedJson(
    IReadOnlyList<ArmJson> Treatments,
    IReadOnlyList<PairJson> Pairs,
    FactorsJson? Factors,
    IReadOnlyList<RemarkJson> Remarks
)
{
    public static ComparedJson Of(TreatmentsCompared compared, Saying saying) =>
        new(
            [
                .. compared.Arms.Select(arm => new ArmJson(
                    arm.Treatment,
                    arm.Vessels.Count,
                    arm.Vessels.Sum(vessel => vessel.Alive),
                    arm.Vessels.Sum(vessel => vessel.Started),
                    PointsJson.Of(arm.Share.Share),
                    arm.Share.Correlation,
                    arm.Share.LogLikelihood,
                    compared
                        .Tarone.Where(told => told.Treatment == arm.Treatment)
                        .Select(told => (double?)told.Z)
                        .FirstOrDefault(),
                    EnumWords.Of(arm.Share.Basis)
                )),
            ],
            [
                .. compared.Pairs.Select(pair => new PairJson(
                    pair.Treatment,
                    pair.With,
                    PointsJson.Of(pair.Arms.Difference),
                    pair.Arms.LogOddsRatio is { } odds ? PointsJson.Of(odds) : null,
                    pair.Arms.Correlation,
                    pair.Arms.Permutation is { } test
                        ? new PermutationJson(
                            test.P.Value,
                            pair.AdjustedP?.Value,
                            test.SmallestP.Value,
                            test.Arrangements,
                            test.IsExact
                        )
                        : null
                )),
            ],
            compared.Factors is { } fitted
                ? new FactorsJson(
                    fitted.Deviance,
                    fitted.DegreesOfFreedom,
                    fitted.Dispersion,
                    [.. fitted.F.Select(term => new FactorJson(term.Factor, term.F))],
                    fitted.BetaBinomial?.Correlation,
                    [
                        .. (fitted.BetaBinomial?.Coefficients ?? []).Select(it => new CoefficientJson(
                            it.Name,
                            it.Estimate,
                            it.StandardError
                        )),
                    ]
                )
                : null,
            [.. compared.Remarks.Select(saying.Json)]
        );
}
