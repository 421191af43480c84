using System.ComponentModel;
using System.Diagnostics;
using Broodtide.Durability;
using Broodtide.Durability.Works;

namespace Broodtide.Storage.Tests;

/// <summary>
/// A short form of <c>eng/trust</c>, for every kind of work that writes: sudden ends, power cuts, a full disk, and the planted
/// faults.
/// </summary>
public sealed class DurabilityTests
{
    public static TheoryData<string> Works => [.. Work.All.Keys];

    [Theory]
    [MemberData(nameof(Works))]
    public async Task What_is_confirmed_outlives_the_sudden_end_of_the_program(string work)
    {
        var outcome = await new Proof(Work.All[work], shim: null, seed: 1).KillAsync(
            work is "append" ? 4 : 2
        );
        Assert.Empty(outcome.Faults);
        Assert.True(outcome.Confirmed > 0);
    }

    [Theory]
    [MemberData(nameof(Works))]
    public async Task What_is_confirmed_outlives_a_power_cut_on_a_disk_that_forgets(string work)
    {
        using var folder = new Folder();
        var outcome = await new Proof(Work.All[work], Shim(folder, "lossy_disk"), seed: 4).CutAsync(
            work is "append" ? 4 : 2
        );
        Assert.Empty(outcome.Faults);
        Assert.True(outcome.Confirmed > 0);
    }

    [Theory]
    [MemberData(nameof(Works))]
    public async Task A_disk_that_only_says_it_syncs_is_found_out(string work)
    {
        using var folder = new Folder();
        var outcome = await new Proof(
            Work.All[work],
            Shim(folder, "lossy_disk"),
            seed: 2,
            Plant.Disk
        ).CutAsync(2);
        Assert.True(outcome.UnsyncedWritesLost > 0);
        Assert.NotEmpty(outcome.Faults);
    }

    [Fact]
    public async Task A_store_that_does_not_sync_is_found_out()
    {
        using var folder = new Folder();
        var outcome = await new Proof(
            Work.All["append"],
            Shim(folder, "lossy_disk"),
            seed: 2,
            Plant.Store
        ).CutAsync(3);
        Assert.True(outcome.Lost > 0);
        Assert.NotEmpty(outcome.Faults);
    }

    [Theory]
    [InlineData("append", 41)]
    [InlineData("photos", 9)]
    [InlineData("migrate", 61)]
    [InlineData("backup", 191)]
    [InlineData("restore", 43)]
    public async Task A_full_disk_is_told_and_leaves_nothing_by_half(string work, int step)
    {
        using var folder = new Folder();
        var outcome = await new FullProof(Work.All[work], Shim(folder, "full_disk"), seed: 3).EveryAsync(
            step
        );
        Assert.Empty(outcome.Faults);
        Assert.True(outcome.Refused > 0);
    }

    private static string Shim(Folder folder, string name)
    {
        if (!OperatingSystem.IsLinux())
        {
            Missing("the disks of these tests are preloaded libraries, which need Linux");
        }

        var shim = folder[$"{name}.so"];
        try
        {
            using var compiler = Process.Start(
                "gcc",
                [
                    "-shared",
                    "-fPIC",
                    "-O2",
                    "-o",
                    shim,
                    Path.Combine(AppContext.BaseDirectory, $"{name}.c"),
                    "-ldl",
                    "-lpthread",
                ]
            );
            compiler.WaitForExit();
            Assert.Equal(0, compiler.ExitCode);
        }
        catch (Win32Exception)
        {
            Missing("gcc is not installed, so the disks of these tests cannot be built");
        }

        return shim;
    }

    private static void Missing(string reason)
    {
        Assert.False(Environment.GetEnvironmentVariable("CI") == "true", reason);
        Assert.Skip(reason);
    }
}
