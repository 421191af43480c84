namespace Broodtide.Browser.Tests.FirstLoad;

/// <summary>The published app keeps to its bytes, file by file. No browser is needed.</summary>
public sealed class ByteBudgetTests
{
    [Fact]
    public async Task Every_file_of_the_published_app_has_a_budget_and_keeps_to_it() =>
        Assert.Empty(ByteBudget.Broken(ByteBudget.Read(), PublishedFiles.In(await Root())));

    [Fact]
    public async Task A_file_made_larger_a_new_one_and_one_that_is_gone_are_noticed()
    {
        var copy = Directory.CreateTempSubdirectory("broodtide-budget-");
        try
        {
            foreach (var name in new[] { "Broodtide.Domain.wasm", "Broodtide.Units.wasm" })
            {
                foreach (var end in new[] { "", ".br" })
                {
                    var to = Path.Combine(copy.FullName, "_framework", name + end);
                    Directory.CreateDirectory(Path.GetDirectoryName(to)!);
                    File.Copy(Path.Combine(await Root(), "_framework", name + end), to);
                }
            }

            var budgets = ByteBudget
                .Read()
                .Where(budget => budget.Name.EndsWith("Domain.wasm", StringComparison.Ordinal))
                .ToList();
            Assert.Single(budgets);
            var domain = Path.Combine(copy.FullName, "_framework", "Broodtide.Domain.wasm");
            Assert.Equal(
                $"_framework/Broodtide.Units.wasm, {Length("Broodtide.Units.wasm")} bytes, has no budget.",
                Assert.Single(ByteBudget.Broken(budgets, PublishedFiles.In(copy.FullName)))
            );

            // A tenth more of one assembly.
            using (var packed = File.Open(domain + ".br", FileMode.Append))
            {
                packed.Write(new byte[packed.Length / 10]);
            }

            Assert.Contains(
                ByteBudget.Broken(budgets, PublishedFiles.In(copy.FullName)),
                broken =>
                    broken
                    == $"_framework/Broodtide.Domain.wasm, {Length("Broodtide.Domain.wasm")} bytes, may have {budgets[0].Bytes}."
            );

            File.Delete(domain);
            Assert.Contains(
                "_framework/Broodtide.Domain.wasm has a budget and is not there.",
                ByteBudget.Broken(budgets, PublishedFiles.In(copy.FullName))
            );
        }
        finally
        {
            copy.Delete(recursive: true);
        }

        long Length(string name) =>
            new FileInfo(Path.Combine(copy.FullName, "_framework", name + ".br")).Length;
    }

    [Fact]
    public async Task A_first_load_over_its_sum_is_noticed()
    {
        var files = PublishedFiles.In(await Root());
        var wide = ByteBudget.Read().Select(budget => budget with { Bytes = long.MaxValue }).ToList();
        var sum = files
            .Where(file => wide.Any(budget => budget.Name == file.Key && budget.When is Fetched.First))
            .Sum(file => file.Value);
        files["_framework/Broodtide.Phone.wasm"] += ByteBudget.FirstBytes - sum + 1;

        Assert.Equal(
            $"The first load, {ByteBudget.FirstBytes + 1} bytes, may have {ByteBudget.FirstBytes}.",
            Assert.Single(ByteBudget.Broken(wide, files))
        );
    }

    private static async Task<string> Root() => Path.Combine(await PublishedSite.GetFolder(), "wwwroot");
}
