using Broodtide.Units;

namespace Broodtide.Science.Development;

/// <summary>Embryo priors with their sources, as of the species profiles that ship.</summary>
public static class ReferencePriors
{
    /// <summary>
    /// <em>Caridina multidentata</em>. Requirement 25 days at 25.5 degC (637.5 degree-days above 0 degC: Cao et al.
    /// 2020, Prog. Fish. Sci. 41(1):145-152, abstract; measured, no spread given). The spreads are assumptions: 9.5 %
    /// in the body, 35 % in one brood of seventeen, so that the 14 to 42 days of practice at temperatures nobody
    /// measured lie inside. Base temperature: one temperature cannot tell it; <em>Macrobrachium rosenbergii</em> at 24 to 28.5
    /// degC is nearly constant in degree-days above 0 (Habashy and Hassan 2011; New 2002), other crustaceans stop far
    /// above 0 (from memory), hence 5 with a wide spread. Eyed at a third to three quarters of the time (keepers'
    /// reports, practice). Pale 2 to 3 days before hatch (borrowed from <em>M. rosenbergii</em>, New 2002, FAO Fish.
    /// Tech. Pap. 428), widened. A new saddle means that hatching is near (one keeper's essay, practice, no figure):
    /// the lead is an assumption. Hatching at night (keepers, practice).
    /// </summary>
    public static EmbryoPrior ReferenceSpecies { get; } =
        new()
        {
            ReferenceTemperature = Temperature.FromCelsius(25.5),
            Requirement =
            [
                new(0.94, LognormalSpread.FromMedian(637.5 / 25.5, 0.095)),
                new(0.06, LognormalSpread.FromMedian(637.5 / 25.5, 0.35)),
            ],
            BaseCelsius = 5,
            BaseSdCelsius = 3.5,
            EyedRatio = LognormalSpread.FromRange(1 / 3.0, 3 / 4.0),
            PaleLeadDays = LognormalSpread.FromMedian(2.5, 0.45),
            SaddleLeadDays = LognormalSpread.FromMedian(6, 0.8),
        };

    /// <summary>
    /// A room that nobody heats or measures: 24.5 +/- 2.5 degC. An assumption, shown as one.
    /// </summary>
    public static TemperatureAssumption UncontrolledRoom { get; } =
        new() { Mean = Temperature.FromCelsius(24.5), Sd = TemperatureDifference.FromCelsius(2.5) };
}
