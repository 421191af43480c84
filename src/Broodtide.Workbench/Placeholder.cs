namespace Broodtide.Workbench;
