using Broodtide.Phone.Browser;

namespace Broodtide.Browser.Tests.Parts;

public sealed class SlicerTests
{
    [Fact]
    public async Task The_page_is_handed_back_whenever_the_budget_is_spent()
    {
        var clock = new HandClock();
        var rests = new List<int>();
        var done = 0;
        var slicer = new Slicer(
            TimeSpan.FromMilliseconds(12),
            () =>
            {
                rests.Add(done);
                return Task.CompletedTask;
            },
            clock
        );

        // Each step takes five milliseconds: three go into a slice.
        await foreach (
            var step in slicer.Slice(
                Enumerable.Range(1, 7).Select(clock.Spend),
                TestContext.Current.CancellationToken
            )
        )
        {
            done = step;
        }

        Assert.Equal([0, 3, 6], rests);
        Assert.Equal(7, done);
    }

    [Fact]
    public async Task Work_that_is_no_longer_wanted_stops_after_its_step()
    {
        using var cancel = new CancellationTokenSource();
        var slicer = new Slicer(TimeSpan.Zero, () => Task.CompletedTask, new HandClock());
        var done = 0;

        await Assert.ThrowsAsync<OperationCanceledException>(async () =>
        {
            await foreach (var step in slicer.Slice(Enumerable.Range(1, 9), cancel.Token))
            {
                done = step;
                await cancel.CancelAsync();
            }
        });

        Assert.Equal(1, done);
    }

    [Fact]
    public async Task The_last_step_is_the_answer() =>
        Assert.Equal(
            3,
            await new Slicer(TimeSpan.Zero, () => Task.CompletedTask, new HandClock()).Last(
                Enumerable.Range(1, 3),
                TestContext.Current.CancellationToken
            )
        );

    private sealed class HandClock : TimeProvider
    {
        private long _milliseconds;

        public override long TimestampFrequency => 1000;

        public override long GetTimestamp() => _milliseconds;

        public int Spend(int step)
        {
            _milliseconds += 5;
            return step;
        }
    }
}
