using Broodtide.Workbench.Dossiers;

namespace Broodtide.Workbench.Tests.Dossiers;

/// <summary>Numbers that ORCID prints as examples in its support pages ("Structure of the ORCID Identifier").</summary>
public class OrcidTests
{
    [Theory]
    [InlineData("0000-0002-1825-0097", "0000-0002-1825-0097")]
    [InlineData("0000-0001-5109-3700", "0000-0001-5109-3700")]
    [InlineData("https://orcid.org/0000-0002-1694-233X", "0000-0002-1694-233X")]
    [InlineData(" 000000021694233x ", "0000-0002-1694-233X")]
    public void A_number_with_the_right_check_figure_is_taken(string typed, string number) =>
        Assert.Equal(number, Orcid.Parse(typed).Value);

    [Fact]
    public void One_wrong_figure_anywhere_is_noticed()
    {
        const string right = "0000000218250097";
        for (var at = 0; at < right.Length; at++)
        {
            foreach (var figure in "0123456789".Where(figure => figure != right[at]))
            {
                var wrong = right[..at] + figure + right[(at + 1)..];
                Assert.Equal("orcid-check-figure", Orcid.Parse(wrong).Reason!.Code);
            }
        }
    }

    [Theory]
    [InlineData("")]
    [InlineData("0000-0002-1825-009")]
    [InlineData("0000-0002-1825-00971")]
    [InlineData("0000-0002-X825-0097")]
    [InlineData("Josiah Carberry")]
    public void What_is_no_number_is_refused(string typed) =>
        Assert.Equal("orcid-not-sixteen", Orcid.Parse(typed).Reason!.Code);

    [Fact]
    public void A_choice_names_licences_of_the_list_in_any_case_and_no_other()
    {
        Assert.Equal(
            "CC-BY-4.0",
            new DossierChoice { Licence = "cc-by-4.0" }
                .Checked()
                .Value.Licence
        );
        Assert.Null(new DossierChoice().Checked().Value.Licence);
        Assert.Equal(
            "licence-not-on-the-list",
            new DossierChoice { Licence = "free" }
                .Checked()
                .Reason!.Code
        );
        Assert.Equal(
            "orcid-without-author",
            new DossierChoice { Orcid = "0000-0002-1825-0097" }
                .Checked()
                .Reason!.Code
        );
    }
}
