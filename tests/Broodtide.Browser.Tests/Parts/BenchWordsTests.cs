using Broodtide.Domain.Larvae;
using Broodtide.Phone.Language;
using Broodtide.Phone.Parts;
using Broodtide.Workbench.Crossing;
using Broodtide.Workbench.Mixing;
using Broodtide.Workbench.Species;

namespace Broodtide.Browser.Tests.Parts;

/// <summary>Codes that the bench puts together from a kind and a name: each has words.</summary>
public sealed class BenchWordsTests
{
    private static readonly IReadOnlyCollection<string> English = Words.English().Codes;

    [Fact]
    public void Every_code_of_the_mixing_tools_has_words()
    {
        Expect<MixingRefusalCode>("mixing.");
        Expect<SalinityScale>("scale.", except: SalinityScale.SpecificGravity);
        Expect<SalinityScale>("scale.unit.", except: SalinityScale.SpecificGravity);
        Expect<DoubtSource>("doubt.");
        Expect<CorrectionMeans>("correct.means.");
        Expect<CorrectionMeans>("correct.step.", except: CorrectionMeans.None);
        Expect<ReadingCorrectionCode>("reading.correction.");
        Expect<ReadingDoubt>("reading.doubt.");
        Expect<ReadingObstacle>("reading.obstacle.");
        Expect<SalinityInstrument>("reading.device.");
        Expect<DoseWarning>("food.much.", except: DoseWarning.None);
        Assert.Empty(Amounts.SalinityScales.Select(code => "amount.unit." + code).Except(English));
    }

    [Fact]
    public void Every_code_of_a_crossing_has_words()
    {
        Expect<CrossingDirection>("crossing.way.");
        Expect<CrossingNoteCode>("crossing.note.");
        Expect<CrossingRefusalCode>("crossing.refusal.");
        Expect<CrossingRemedyCode>("crossing.remedy.");
        Expect<CrossingField>("crossing.field.");
        Expect<CountMethod>("crossing.method.");
    }

    [Fact]
    public void Every_code_of_a_species_profile_has_words()
    {
        Expect<Provenance>("species.provenance.");
        Expect<ProfileBounds>("species.bounds.");
        Assert.Empty(
            SpeciesProfiles
                .All.SelectMany(profile => profile.Quantities)
                .Select(quantity => "species.unit." + quantity.Unit.Code)
                .Except(English)
        );
        Assert.Empty(
            typeof(ProfileConflictCodes)
                .GetFields()
                .Select(field => "species.conflict." + field.GetValue(null))
                .Except(English)
        );
    }

    private static void Expect<T>(string beginning, params T[] except)
        where T : struct, Enum =>
        Assert.Empty(Enum.GetValues<T>().Except(except).Select(code => beginning + code).Except(English));
}
