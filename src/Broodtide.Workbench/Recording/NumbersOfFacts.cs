using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;

namespace Broodtide.Workbench.Recording;

/// <summary>Changes single typed numbers of facts, by the name the fact itself gives them.</summary>
public static class NumbersOfFacts
{
    /// <summary>The same fact with every number of a name changed; unchanged where it has none of that name.</summary>
    /// <param name="fact">The fact.</param>
    /// <param name="name">Name of the number, as <see cref="Fact.Numbers"/> gives it.</param>
    /// <param name="change">What becomes of it.</param>
    public static Fact WithNumber(this Fact fact, string name, Func<TypedNumber, TypedNumber> change)
    {
        TypedNumber? If(string own, TypedNumber? number) =>
            number is not null && own == name ? change(number) : number;

        return fact switch
        {
            ReadingTaken reading => reading with
            {
                Value = If("value", reading.Value)!,
                SampleTemperature = If("sampleTemperature", reading.SampleTemperature),
            },
            InstrumentCalibrated calibrated => calibrated with
            {
                Shown = If("shown", calibrated.Shown)!,
                Standard = If("standard", calibrated.Standard)!,
                Temperature = If("temperature", calibrated.Temperature),
            },
            CountMade count => count with
            {
                Samples =
                [
                    .. count.Samples.Select(sample =>
                        sample with
                        {
                            Volume = If("samples.volume", sample.Volume),
                        }
                    ),
                ],
            },
            VesselSetUp setUp => setUp with { Capacity = If("capacity", setUp.Capacity) },
            VesselFilled filled => filled with
            {
                Volume = If("volume", filled.Volume)!,
                Salinity = If("salinity", filled.Salinity),
                Temperature = If("temperature", filled.Temperature),
            },
            VesselDisinfected disinfected => disinfected with
            {
                Dose = If("dose", disinfected.Dose),
                Residual = If("residual", disinfected.Residual),
            },
            WaterMoved moved => moved with
            {
                Volume = If("volume", moved.Volume),
                Salinity = If("salinity", moved.Salinity),
                Temperature = If("temperature", moved.Temperature),
                Mix = If("mix", moved.Mix),
            },
            VesselSiphoned siphoned => siphoned with { Volume = If("volume", siphoned.Volume) },
            VesselFed fed => fed with
            {
                Volume = If("volume", fed.Volume),
                Mass = If("mass", fed.Mass),
                Density = If("density", fed.Density),
                Salinity = If("salinity", fed.Salinity),
            },
            FeedDescribed feed => feed with
            {
                Protein = If("protein", feed.Protein),
                Moisture = If("moisture", feed.Moisture),
                Ash = If("ash", feed.Ash),
            },
            CultureDescribed culture => culture with
            {
                Inoculum = If("inoculum", culture.Inoculum),
                InoculumDensity = If("inoculumDensity", culture.InoculumDensity),
            },
            CultureHarvested harvested => harvested with
            {
                Volume = If("volume", harvested.Volume),
                Density = If("density", harvested.Density),
            },
            CellsCounted counted => counted with { SquareVolume = If("squareVolume", counted.SquareVolume) },
            LightChanged light => light with { Illuminance = If("illuminance", light.Illuminance) },
            HeaterChanged heater => heater with { Setting = If("setting", heater.Setting) },
            CrossingMade crossing => crossing with
            {
                PouredSalinity = If("pouredSalinity", crossing.PouredSalinity),
                Entered = If("entered", crossing.Entered),
                EnteredSalinity = If("enteredSalinity", crossing.EnteredSalinity),
                BrackishMinutes = If("brackishMinutes", crossing.BrackishMinutes),
                Pours = Pours(crossing.Pours, If),
            },
            JuvenilesReturned returned => returned with
            {
                Minutes = If("minutes", returned.Minutes),
                Pours = Pours(returned.Pours, If),
            },
            TrialLaidOut trial => trial with
            {
                Treatments =
                [
                    .. trial.Treatments.Select(treatment =>
                        treatment with
                        {
                            Value = If("treatments.value", treatment.Value),
                        }
                    ),
                ],
            },
            _ => fact,
        };
    }

    private static IReadOnlyList<CrossingPour>? Pours(
        IReadOnlyList<CrossingPour>? pours,
        Func<string, TypedNumber?, TypedNumber?> change
    ) =>
        pours is null
            ? null
            :
            [
                .. pours.Select(pour =>
                    pour with
                    {
                        DrawnOff = change("pours.drawnOff", pour.DrawnOff),
                        Added = change("pours.added", pour.Added),
                    }
                ),
            ];
}
