namespace Broodtide.Workbench.Planning;

/// <summary>
/// The names of actions. They stand in the keys that the journal keeps, so a name is chosen once and never changes.
/// </summary>
public static class ActionCodes
{
    /// <summary>Grow a film of diatoms on plates or stones, at larval salinity.</summary>
    public const string StartFilm = "start-film";

    /// <summary>Start green water at larval salinity.</summary>
    public const string StartGreenWater = "start-green-water";

    /// <summary>Start a second culture, with pipettes of its own.</summary>
    public const string StartBackupCulture = "start-backup-culture";

    /// <summary>Have enough salt mix in the house.</summary>
    public const string HaveSaltMix = "have-salt-mix";

    /// <summary>Set ready vessels, cups, mesh and lids.</summary>
    public const string ReadyContainers = "ready-containers";

    /// <summary>Set ready air: an open rigid line, slow coarse bubbles.</summary>
    public const string ReadyAir = "ready-air";

    /// <summary>Set ready pipettes: one kind for larvae, another for each culture.</summary>
    public const string ReadyPipettes = "ready-pipettes";

    /// <summary>Set ready light: a lamp to gather larvae, one for the algae.</summary>
    public const string ReadyLight = "ready-light";

    /// <summary>Hold the refractometer against a 35 ppt standard.</summary>
    public const string CalibrateInstrument = "calibrate-instrument";

    /// <summary>Mix sea water and let it stand a day with air.</summary>
    public const string MixSeaWater = "mix-sea-water";

    /// <summary>Sterilise water with bleach; only if chosen.</summary>
    public const string BleachWater = "bleach-water";

    /// <summary>Measure the chlorine that is left.</summary>
    public const string MeasureChlorine = "measure-chlorine";

    /// <summary>Neutralise the measured chlorine with thiosulfate.</summary>
    public const string NeutraliseChlorine = "neutralise-chlorine";

    /// <summary>Test that no chlorine is left: the gate before animals.</summary>
    public const string TestZeroChlorine = "test-zero-chlorine";

    /// <summary>Set ready the hatching box.</summary>
    public const string ReadyHatchingBox = "ready-hatching-box";

    /// <summary>Look whether the eggs are eyed or pale, or a saddle shows.</summary>
    public const string LookAtEggs = "look-at-eggs";

    /// <summary>Put the female into the hatching box.</summary>
    public const string Isolate = "isolate";

    /// <summary>Have someone at home on the hatch nights.</summary>
    public const string SomeoneAtHome = "someone-at-home";

    /// <summary>Set the phone's own clock: this app cannot wake anyone.</summary>
    public const string SetPhoneClock = "set-phone-clock";

    /// <summary>Look for larvae with a torch.</summary>
    public const string LookForLarvae = "look-for-larvae";

    /// <summary>Keep dropped eggs moving, pick out the white ones.</summary>
    public const string TendDroppedEggs = "tend-dropped-eggs";

    /// <summary>Stop filter and pump so that no larvae are drawn in.</summary>
    public const string StopFilter = "stop-filter";

    /// <summary>Gather larvae at a light into a cup of their own water.</summary>
    public const string GatherLarvae = "gather-larvae";

    /// <summary>Mix a small jar of sea water at once.</summary>
    public const string MixJarNow = "mix-jar-now";

    /// <summary>Read the salinity of the water that larvae are to meet.</summary>
    public const string CheckJar = "check-jar";

    /// <summary>Take larvae from fresh to salt water.</summary>
    public const string CrossLarvae = "cross-larvae";

    /// <summary>Get food: green water from another keeper or a shop.</summary>
    public const string GetFood = "get-food";

    /// <summary>Give the first food, after salt.</summary>
    public const string FirstFood = "first-food";

    /// <summary>Look at the food in the water and feed.</summary>
    public const string FeedLarvae = "feed-larvae";

    /// <summary>Read the salinity of a larval vessel.</summary>
    public const string ReadSalinity = "read-salinity";

    /// <summary>Read the temperature of a larval vessel.</summary>
    public const string ReadTemperature = "read-temperature";

    /// <summary>Bring larvae to saltier water as their stage asks.</summary>
    public const string RaiseSalinity = "raise-salinity";

    /// <summary>Count larvae.</summary>
    public const string CountLarvae = "count-larvae";

    /// <summary>Set ready the nursery, with a lid.</summary>
    public const string ReadyNursery = "ready-nursery";

    /// <summary>Look for bottom-living post-larvae.</summary>
    public const string WatchSettlement = "watch-settlement";

    /// <summary>Bring juveniles back to fresh water.</summary>
    public const string ReturnJuveniles = "return-juveniles";

    /// <summary>See that the nursery has its lid, a sponge over the intake, and no fish.</summary>
    public const string CheckNurseryLid = "check-nursery-lid";

    /// <summary>Count juveniles in fresh water.</summary>
    public const string CountJuveniles = "count-juveniles";

    /// <summary>Read again: a reading and the ledger disagree.</summary>
    public const string ReadAgain = "read-again";

    /// <summary>Top up with fresh water.</summary>
    public const string TopUp = "top-up";

    /// <summary>Bring a vessel back into its band.</summary>
    public const string CorrectSalinity = "correct-salinity";

    /// <summary>Check an instrument whose last check is old.</summary>
    public const string CheckInstrument = "check-instrument";

    /// <summary>Count a culture, or look at a film.</summary>
    public const string CountCulture = "count-culture";

    /// <summary>Take the day's harvest of a culture.</summary>
    public const string HarvestCulture = "harvest-culture";

    /// <summary>Look after a culture that is about to crash.</summary>
    public const string TendCulture = "tend-culture";

    /// <summary>Keep new animals in water of their own.</summary>
    public const string KeepNewApart = "keep-new-apart";

    /// <summary>Look who is female and who is male.</summary>
    public const string SexAdults = "sex-adults";

    /// <summary>Get animals of the sex that is missing.</summary>
    public const string GetOtherSex = "get-other-sex";

    /// <summary>Feed and settle the adults before they breed.</summary>
    public const string ConditionAdults = "condition-adults";

    /// <summary>Look whether a female carries.</summary>
    public const string LookForEggs = "look-for-eggs";

    /// <summary>Bring a female back from the hatching box.</summary>
    public const string ReturnFemale = "return-female";

    /// <summary>Look which of several females in a box is empty.</summary>
    public const string SeeWhoIsEmpty = "see-who-is-empty";

    /// <summary>Keep samples, photos and water of a lost run.</summary>
    public const string KeepSamples = "keep-samples";

    /// <summary>Clean and dry what a lost run stood in.</summary>
    public const string CleanAfterLoss = "clean-after-loss";

    /// <summary>Choose the one thing to do otherwise in the next run.</summary>
    public const string ChangeOneThing = "change-one-thing";

    /// <summary>Read the review of a run that is over.</summary>
    public const string ReadReview = "read-review";

    /// <summary>Go round while the mains are gone.</summary>
    public const string MindPowerCut = "mind-power-cut";

    /// <summary>Look over the house after the mains came back.</summary>
    public const string AfterPowerCut = "after-power-cut";

    /// <summary>Keep a vessel from getting too warm.</summary>
    public const string CoolVessel = "cool-vessel";

    /// <summary>Make an absence ready: portions, bottles, the helper's sheet.</summary>
    public const string ReadyAbsence = "ready-absence";

    /// <summary>Look over the house after an absence.</summary>
    public const string AfterAbsence = "after-absence";

    /// <summary>Go and look: a sensor raises an alarm.</summary>
    public const string SeeAlarm = "see-alarm";

    /// <summary>Find out why nothing is heard of a sensor.</summary>
    public const string HearSensor = "hear-sensor";

    /// <summary>Look at a sensor whose readings do not look right.</summary>
    public const string CheckSensor = "check-sensor";

    /// <summary>Say where sensors stand.</summary>
    public const string PlaceSensor = "place-sensor";

    /// <summary>Every name.</summary>
    public static IReadOnlyList<string> All { get; } =
    [
        StartFilm,
        StartGreenWater,
        StartBackupCulture,
        HaveSaltMix,
        ReadyContainers,
        ReadyAir,
        ReadyPipettes,
        ReadyLight,
        CalibrateInstrument,
        MixSeaWater,
        BleachWater,
        MeasureChlorine,
        NeutraliseChlorine,
        TestZeroChlorine,
        ReadyHatchingBox,
        LookAtEggs,
        Isolate,
        SomeoneAtHome,
        SetPhoneClock,
        LookForLarvae,
        TendDroppedEggs,
        StopFilter,
        GatherLarvae,
        MixJarNow,
        CheckJar,
        CrossLarvae,
        GetFood,
        FirstFood,
        FeedLarvae,
        ReadSalinity,
        ReadTemperature,
        RaiseSalinity,
        CountLarvae,
        ReadyNursery,
        WatchSettlement,
        ReturnJuveniles,
        CheckNurseryLid,
        CountJuveniles,
        ReadAgain,
        TopUp,
        CorrectSalinity,
        CheckInstrument,
        CountCulture,
        HarvestCulture,
        TendCulture,
        KeepNewApart,
        SexAdults,
        GetOtherSex,
        ConditionAdults,
        LookForEggs,
        ReturnFemale,
        SeeWhoIsEmpty,
        KeepSamples,
        CleanAfterLoss,
        ChangeOneThing,
        ReadReview,
        MindPowerCut,
        AfterPowerCut,
        CoolVessel,
        ReadyAbsence,
        AfterAbsence,
        SeeAlarm,
        HearSensor,
        CheckSensor,
        PlaceSensor,
    ];
}
