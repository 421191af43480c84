using Broodtide.Science.Development;
using static Broodtide.Science.Tests.Development.Broods;

namespace Broodtide.Science.Tests.Development;

public sealed class IsolationAdviceTests
{
    [Fact]
    public void Without_a_sign_it_waits_and_names_the_day_of_the_next_look()
    {
        var advice = Advise(Spawned(NotEyed(5)).At(25, -1, 5), 5);

        Assert.Equal(IsolationCode.WaitForSigns, advice.Code);
        Assert.InRange(advice.Day, 10, 22);
    }

    [Fact]
    public void Without_a_sign_but_late_it_asks_for_a_look()
    {
        var advice = Advise(Spawned(new BroodFact.StillCarried(24)).At(25, -1, 24), 24);

        Assert.Equal(IsolationCode.LookNow, advice.Code);
    }

    [Fact]
    public void Pale_eggs_mean_now_and_early_eyes_a_later_day()
    {
        Assert.Equal(IsolationCode.IsolateNow, Advise(Spawned(Eyed(15), Pale(22)).At(25, -1, 22), 22).Code);

        var eyed = Advise(Spawned(NotEyed(8), Eyed(10)).At(25, -1, 10), 10);
        Assert.Equal(IsolationCode.IsolateOn, eyed.Code);
        Assert.True(eyed.Day > 12, $"{eyed.Day}");
    }

    [Fact]
    public void Waiting_raises_one_risk_and_lowers_the_other()
    {
        var choices = Advise(Spawned(Eyed(14)).At(25, -1, 14), 14).Choices;

        foreach (var (sooner, later) in choices.Zip(choices.Skip(1)))
        {
            Assert.True(sooner.HatchedBefore <= later.HatchedBefore);
            Assert.True(sooner.HarmInBox >= later.HarmInBox);
            Assert.True(sooner.DaysInBox >= later.DaysInBox);
        }

        Assert.Equal(0, choices[0].HatchedBefore.Value);
    }

    [Fact]
    public void Larvae_already_likely_or_eggs_off_are_said_first()
    {
        Assert.Equal(IsolationCode.LookForLarvae, Advise(Spawned(Eyed(14)).At(25, -1, 14), 45).Code);
        Assert.Equal(
            IsolationCode.EggsAreOff,
            Advise(Spawned(Eyed(14), new BroodFact.Dropped(18)).At(25, -1, 18), 18).Code
        );
    }

    [Fact]
    public void A_box_that_harms_more_moves_the_day_later()
    {
        var evidence = Spawned(NotEyed(10), Eyed(13)).At(25, -1, 13);
        var forecast = HatchForecast.From(Prior, evidence);
        var gentle = IsolationAdvice.From(forecast, evidence.Facts, 13, 20, new() { HarmPerDay = 0.005 });
        var harsh = IsolationAdvice.From(forecast, evidence.Facts, 13, 20, new() { HarmPerDay = 0.08 });

        Assert.True(gentle.Day < harsh.Day, $"{gentle.Day} {harsh.Day}");
    }

    private static IsolationAdvice Advise(BroodEvidence evidence, double now) =>
        IsolationAdvice.From(HatchForecast.From(Prior, evidence), evidence.Facts, now, 25, new());
}
